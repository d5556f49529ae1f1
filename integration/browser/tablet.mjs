// A tablet for tests: a Chromium process of its own with a profile that stays, which
// can be killed as the system kills it when memory runs out, and started again.

import { spawn } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { chromium } from 'playwright-core';

const flags = ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
  '--disable-component-update', '--disable-sync', '--remote-debugging-port=0'];

export class Tablet {
  constructor(program, profile, faults) {
    Object.assign(this, { program, profile, faults, offline: false });
  }

  // start opens the browser with one page, which sees the network or does not.
  async start() {
    const portFile = join(this.profile, 'DevToolsActivePort');
    rmSync(portFile, { force: true });
    this.process = spawn(this.program, [...flags, `--user-data-dir=${this.profile}`, 'about:blank'], { detached: true, stdio: 'ignore' });
    for (let i = 0; !(existsSync(portFile) && readFileSync(portFile, 'utf8').includes('\n')); i++) {
      if (i > 400) throw new Error('the browser does not start');
      await wait(25);
    }
    const [port] = readFileSync(portFile, 'utf8').split('\n');
    this.browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
    [this.context] = this.browser.contexts();
    this.page = await this.open();
  }

  // open opens one more page.
  async open() {
    const page = await this.context.newPage();
    await page.setViewportSize({ width: 820, height: 1180 });
    page.on('pageerror', (e) => this.faults.push(`${page.url()}: ${e.message}`));
    page.setDefaultTimeout(15000);
    await this.context.setOffline(this.offline);
    return page;
  }

  // cut takes the network away, or gives it back.
  async cut(offline) {
    this.offline = offline;
    await this.context.setOffline(offline);
  }

  // kill ends all processes of the browser at once: nothing of it can save anything.
  async kill() {
    const ended = new Promise((done) => this.process.once('exit', done));
    process.kill(-this.process.pid, 'SIGKILL');
    await ended;
    await this.browser.close().catch(() => {}); // the connection is dead already
  }
}
