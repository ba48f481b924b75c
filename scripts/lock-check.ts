interface LockFile {
  readonly packages?: Readonly<
    Record<string, { readonly resolved?: string; readonly integrity?: string; readonly link?: boolean }>
  >;
}

/**
 * One line for each package of a lock file that names an address or lacks its checksum. An address would tie every
 * checkout to the registry of whoever wrote the file; the checksum is what makes leaving it out safe.
 */
export function lockFaults(text: string): string[] {
  const packages = Object.entries((JSON.parse(text) as LockFile).packages ?? {}).filter(([path]) => path !== '');
  if (packages.length === 0) return ['the lock file lists no packages'];
  return packages.flatMap(([path, entry]) => {
    const faults: string[] = [];
    if (entry.resolved !== undefined) faults.push(`${path}: holds an address ("resolved")`);
    if (entry.integrity === undefined && entry.link !== true) faults.push(`${path}: has no checksum ("integrity")`);
    return faults;
  });
}
