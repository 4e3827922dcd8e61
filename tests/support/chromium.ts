import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import process from 'node:process';

/** Flags for a quiet, offline Chromium that also starts for root and without a graphics card. */
export const chromiumArguments: readonly string[] = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** What the search for Chromium asks of the machine; tests put a made-up machine in its place. */
export interface Machine {
  readonly platform: string;
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly exists: (path: string) => boolean;
  /** Runs a program and says whether it ended well. */
  readonly run: (program: string, programArguments: readonly string[]) => boolean;
}

const thisMachine: Machine = {
  platform: process.platform,
  environment: process.env,
  exists: existsSync,
  run: (program, programArguments) => {
    try {
      // Standard output is left to the caller's own report.
      execFileSync(program, programArguments, { stdio: ['ignore', 2, 2] });
      return true;
    } catch {
      return false;
    }
  },
};

const usualPlaces: Readonly<Record<string, readonly string[]>> = {
  linux: [
    // The same engine without the windows of a browser about it, which tests would pay for and nobody sees.
    '/usr/bin/chromium-headless-shell',
    '/usr/bin/chromium',
    '/usr/bin/chromium-browser',
    '/usr/bin/google-chrome',
    '/usr/bin/google-chrome-stable',
    '/usr/bin/microsoft-edge',
    '/snap/bin/chromium',
  ],
  darwin: [
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  ],
};

/** Debian's packages that hold one; older releases lack the first. */
const debianPackages = ['chromium-headless-shell', 'chromium'] as const;

/** Windows programs are looked for under each of these folders that the environment names. */
const windowsFolders = ['ProgramFiles', 'ProgramFiles(x86)', 'LocalAppData'] as const;
const windowsPrograms = [
  'Chromium\\Application\\chrome.exe',
  'Google\\Chrome\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
] as const;

function placesOf(machine: Machine): readonly string[] {
  if (machine.platform !== 'win32') return usualPlaces[machine.platform] ?? [];
  return windowsFolders.flatMap((folder) => {
    const path = machine.environment[folder];
    return path === undefined ? [] : windowsPrograms.map((program) => `${path}\\${program}`);
  });
}

/**
 * The path of a Chromium on this machine: the one named by the environment variable CHROMIUM, else the first found in
 * the usual places, else undefined.
 */
export function findChromium(machine: Machine = thisMachine): string | undefined {
  const named = machine.environment.CHROMIUM;
  if (named !== undefined && named !== '') return named;
  return placesOf(machine).find(machine.exists);
}

/**
 * The path of a Chromium, installed from the distribution's packages where there is none and that can be done without
 * asking anyone.
 * @throws Error with the one thing to do, where there is no Chromium and none can be installed.
 */
export function ensureChromium(machine: Machine = thisMachine): string {
  const found = findChromium(machine);
  if (found !== undefined) {
    if (machine.exists(found)) return found;
    throw new Error(`CHROMIUM names ${found}, which does not exist: set it to the path of a Chromium program.`);
  }
  if (machine.platform === 'linux') {
    const asRoot = [[], ['sudo', '--non-interactive']].find((prefix) => rightsOfRoot(machine, prefix));
    if (asRoot !== undefined && machine.exists('/usr/bin/apt-get')) {
      runAll(machine, asRoot, [['apt-get', 'update']]);
      for (const name of debianPackages) {
        runAll(machine, asRoot, [['env', 'DEBIAN_FRONTEND=noninteractive', 'apt-get', 'install', '--yes', name]]);
        const installed = findChromium(machine);
        if (installed !== undefined) return installed;
      }
    }
  }
  throw new Error('No Chromium was found: install Chromium, or set CHROMIUM to the path of its program.');
}

function rightsOfRoot(machine: Machine, prefix: readonly string[]): boolean {
  return runAll(machine, prefix, [['sh', '-c', 'test "$(id -u)" = 0']]);
}

function runAll(machine: Machine, prefix: readonly string[], commands: readonly (readonly string[])[]): boolean {
  return commands.every((command) => {
    const [program, ...programArguments] = [...prefix, ...command];
    return program !== undefined && machine.run(program, programArguments);
  });
}
