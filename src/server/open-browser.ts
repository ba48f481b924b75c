import { spawn } from 'node:child_process';

type Environment = Readonly<Record<string, string | undefined>>;

/** The program that opens an address in the user's browser; null where there is no display to open it on. */
export function browserCommand(platform: NodeJS.Platform, environment: Environment): readonly string[] | null {
  if (platform === 'darwin') return ['open'];
  if (platform === 'win32') return ['cmd', '/c', 'start', ''];
  return environment.DISPLAY || environment.WAYLAND_DISPLAY ? ['xdg-open'] : null;
}

/** Opens `address`, if it can; nobody waits for it, and its failing is no failure: the address has been printed. */
export function openBrowser(address: string): void {
  const command = browserCommand(process.platform, process.env);
  if (command === null) return;
  const [program, ...words] = command;
  const child = spawn(program!, [...words, address], { stdio: 'ignore', detached: true });
  child.on('error', () => {});
  child.unref();
}
