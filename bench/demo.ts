/** The default demo from nothing to tables: time and memory. Targets on 2 cores: 60 s, 1.5 GB. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { demo } from '../src/commands/demo.ts';
import { SILENT } from '../src/progress.ts';

const folder = mkdtempSync(join(tmpdir(), 'leatherbook-bench-'));
try {
  const began = performance.now();
  const options = { book: join(folder, 'demo'), seasons: 3, teams: 12, seed: 1 };
  const report = await demo(options, { progress: SILENT, now: () => new Date() });
  const seconds = (performance.now() - began) / 1000;
  const gigabytes = process.resourceUsage().maxRSS / 1024 ** 2;
  for (const step of report.steps) console.log(`${step.name.padEnd(10)} ${step.seconds.toFixed(1).padStart(6)} s`);
  console.log(`${'all'.padEnd(10)} ${seconds.toFixed(1).padStart(6)} s, target 60 s`);
  console.log(`${'memory'.padEnd(10)} ${gigabytes.toFixed(2).padStart(6)} GB, target 1.5 GB`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
