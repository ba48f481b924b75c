import { readFileSync } from 'node:fs';
import { lockFaults } from './lock-check.ts';

const faults = lockFaults(readFileSync('package-lock.json', 'utf8'));
for (const fault of faults) console.error(fault);
console.log(`lock file: ${faults.length} faults`);
process.exitCode = faults.length === 0 ? 0 : 1;
