// Has Lighthouse look at pages in a browser with a profile of its own. Its scores for
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

// What is stored stays: a page that is installed is looked at as it is installed.
const flags = {
  port, onlyCategories: ['accessibility', 'best-practices'], throttlingMethod: 'provided', formFactor: 'mobile',
  disableStorageReset: true, disableFullPageScreenshot: true, logLevel: 'error',
};

async function look({ name, path }) {
  const { lhr } = await lighthouse(job.base + path, flags);
  if (lhr.runtimeError) faults.push(`${name}: ${lhr.runtimeError.message}`);
  scores[name] = {};
  for (const { id, score, auditRefs } of Object.values(lhr.categories)) {
    scores[name][id] = score;
    const lacks = auditRefs.map((r) => lhr.audits[r.id]).filter((a) => a.scoreDisplayMode === 'error' || (a.score !== null && a.score < 1));
    for (const a of lacks) faults.push(`${name}, ${id}: ${a.id}: ${a.errorMessage ?? a.title} ${JSON.stringify(a.details?.items ?? []).slice(0, 300)}`);
    if (score !== 1) faults.push(`${name}, ${id}: ${score}, not 1`);
  }
}

try {
  for (const page of job.pages) await look(page);
  process.stdout.write(JSON.stringify({ scores, faults }));
} finally {
  await context.close();
  rmSync(profile, { recursive: true, force: true });
}
