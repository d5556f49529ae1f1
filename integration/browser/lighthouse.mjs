// Has Lighthouse look at the way in, and at the page at the bedside as a device keeps
// it when its server is stopped, in a browser with a profile of its own. Its scores for
// speed are not asked for: they say how busy this machine is. What to do comes as
// JSON on standard input; what came of it leaves as JSON on standard output.

import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import lighthouse from 'lighthouse';
import { chromium } from 'playwright-core';

const job = JSON.parse(readFileSync(0, 'utf8'));
const faults = [];
const scores = {};
const profile = mkdtempSync(join(tmpdir(), 'lighthouse-'));

// The browser chooses a port and writes it into its profile.
const context = await chromium.launchPersistentContext(profile, {
  executablePath: job.chromium,
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync', '--remote-debugging-port=0'],
});
const port = Number(readFileSync(join(profile, 'DevToolsActivePort'), 'utf8').split('\n')[0]);

// What is stored stays: a page that is installed is looked at as it is installed. Slow
// networks are reckoned, not waited for, and none of it is asked.
const flags = {
  port, onlyCategories: ['accessibility', 'best-practices'], throttlingMethod: 'simulate', formFactor: 'mobile',
  disableStorageReset: true, disableFullPageScreenshot: true, logLevel: 'error',
};

// A browser itself logs each request that a stopped server does not answer; nothing else
// may be in its log.
const unanswered = (audit) => audit.id === 'errors-in-console' && audit.details.items.every((i) => i.source === 'network' && i.description.includes('net::ERR_CONNECTION_REFUSED'));

async function look(name, path, { stopped = false } = {}) {
  const { lhr } = await lighthouse(job.base + path, flags);
  if (lhr.runtimeError) faults.push(`${name}: ${lhr.runtimeError.message}`);
  scores[name] = {};
  for (const { id, score, auditRefs } of Object.values(lhr.categories)) {
    const lacks = auditRefs.map((r) => lhr.audits[r.id]).filter((a) => a.scoreDisplayMode === 'error' || (a.score !== null && a.score < 1));
    const ours = lacks.filter((a) => !(stopped && unanswered(a)));
    for (const a of ours) faults.push(`${name}, ${id}: ${a.id}: ${a.errorMessage ?? a.title} ${JSON.stringify(a.details?.items ?? []).slice(0, 300)}`);
    if (score !== 1 && lacks.length === ours.length) faults.push(`${name}, ${id}: ${score}, not 1`);
    scores[name][id] = score;
  }
}

// install opens the page at the bedside as somebody who is signed in, and has the device
// keep it.
async function install() {
  await context.addCookies([{ ...job.cookie, url: job.base }]);
  const page = await context.newPage();
  await page.goto(`${job.base}/bedside/`);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await page.locator('#enrol').click();
  await page.getByRole('button', { name: 'Enrol this device' }).click();
  await page.locator('.people h1').waitFor();
  await page.close();
}

try {
  await look('the way in', '/sign-in');
  await install();
  await fetch(job.stop);
  await look('the bedside, with its server stopped', '/bedside/', { stopped: true });
  process.stdout.write(JSON.stringify({ scores, faults }));
} finally {
  await context.close();
  rmSync(profile, { recursive: true, force: true });
}
