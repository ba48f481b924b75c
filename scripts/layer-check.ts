import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { cruise, type ICruiseResult } from 'dependency-cruiser';
import { LAYERS } from './layer-order.ts';
import { layerRules } from './layer-rules.ts';

export interface LayerReport {
  readonly moduleCount: number;
  /** One line a fault; empty when the layers hold. */
  readonly faults: readonly string[];
}

/** What is checked: the program, and the pages of the workbench. */
const ROOTS = ['src', 'web'] as const;
const SOURCE = /\.(ts|svelte)$/;

/**
 * Reads every module under `root`/src and `root`/web and checks the direction of its imports.
 * The cruiser can succeed having read nothing, so its modules are compared with the files on disk.
 */
export async function checkLayers(root: string): Promise<LayerReport> {
  const files = sourceFiles(root);
  if (files.length === 0)
    return { moduleCount: 0, faults: [`no modules read: there is no .ts file under ${root}/src`] };
  const { output } = await cruise(
    ROOTS.filter((folder) => existsSync(join(root, folder))),
    {
      baseDir: root,
      ruleSet: layerRules(),
      validate: true,
      tsPreCompilationDeps: true,
      doNotFollow: { path: 'node_modules' },
    },
    {
      extensions: ['.ts', '.js', '.json', '.svelte'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'types'],
    },
  );
  const result = output as ICruiseResult;
  const read = new Set(result.modules.map((module) => module.source));
  const faults = files.filter((file) => !read.has(file)).map((file) => `${file}: not read by the layer check`);
  for (const file of files) {
    const folder = /^src\/([^/]+)\//.exec(file)?.[1];
    if (folder !== undefined && !(LAYERS as readonly string[]).includes(folder)) {
      faults.push(`${file}: folder ${folder} has no place in scripts/layer-order.ts`);
    }
  }
  for (const { rule, from, to, cycle } of result.summary.violations) {
    const way = cycle === undefined ? to : cycle.map((step) => step.name).join(' -> ');
    faults.push(`${rule.name}: ${from} -> ${way}`);
  }
  return { moduleCount: files.length, faults };
}

/** Every source file of the roots, as paths relative to `root` with forward slashes. */
function sourceFiles(root: string): string[] {
  return ROOTS.filter((folder) => existsSync(join(root, folder))).flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && SOURCE.test(entry.name))
      .map((entry) =>
        join(entry.parentPath, entry.name)
          .slice(root.length + 1)
          .replaceAll('\\', '/'),
      )
      .sort(),
  );
}
