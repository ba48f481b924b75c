import { checkLayers } from './layer-check.ts';

const { moduleCount, faults } = await checkLayers(process.cwd());
for (const fault of faults) console.error(fault);
console.log(`layers: ${moduleCount} modules read, ${faults.length} faults`);
process.exitCode = faults.length === 0 ? 0 : 1;
