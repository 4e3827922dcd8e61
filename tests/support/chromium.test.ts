import { describe, expect, test } from 'vitest';
import { ensureChromium, findChromium, type Machine } from './chromium.ts';

/** A made-up machine that has the given files, and does what is said of the programs that are run on it. */
function machine(facts: {
  platform?: string;
  environment?: Record<string, string>;
  files?: string[];
  run?: (commandLine: string, files: Set<string>) => boolean;
}): Machine & { readonly commandLines: string[] } {
  const files = new Set(facts.files);
  const commandLines: string[] = [];
  return {
    platform: facts.platform ?? 'linux',
    environment: facts.environment ?? {},
    exists: (path) => files.has(path),
    run: (program, programArguments) => {
      const commandLine = [program, ...programArguments].join(' ');
      commandLines.push(commandLine);
      return facts.run?.(commandLine, files) ?? false;
    },
    commandLines,
  };
}

/** A package manager that installs Chromium where the one who asks may. */
function packages(mayRun: (commandLine: string) => boolean) {
  return (commandLine: string, files: Set<string>): boolean => {
    if (!mayRun(commandLine)) return false;
    const name = / install --yes (\S+)$/.exec(commandLine)?.[1];
    if (name !== undefined) files.add(`/usr/bin/${name}`);
    return true;
  };
}

describe('the search for Chromium', () => {
  test('takes the program that the environment names before any other', () => {
    const environment = { CHROMIUM: '/opt/mine/chrome' };
    expect(findChromium(machine({ environment, files: ['/opt/mine/chrome', '/usr/bin/chromium'] }))).toBe(
      '/opt/mine/chrome',
    );
  });

  test('treats an empty name in the environment as none', () => {
    expect(findChromium(machine({ environment: { CHROMIUM: '' }, files: ['/usr/bin/chromium'] }))).toBe(
      '/usr/bin/chromium',
    );
  });

  test.each([
    ['linux', '/usr/bin/google-chrome'],
    ['darwin', '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome'],
    ['win32', 'C:\\Users\\ann\\Local\\Chromium\\Application\\chrome.exe'],
  ])('looks in the usual places of %s', (platform, path) => {
    const environment = { LocalAppData: 'C:\\Users\\ann\\Local' };
    expect(findChromium(machine({ platform, environment, files: [path] }))).toBe(path);
    expect(findChromium(machine({ platform, environment, files: [] }))).toBeUndefined();
  });

  test('finds nothing on a platform without usual places', () => {
    expect(findChromium(machine({ platform: 'sunos', files: ['/usr/bin/chromium'] }))).toBeUndefined();
  });
});

describe('making sure of Chromium', () => {
  test('installs nothing where one is found', () => {
    const here = machine({ files: ['/usr/bin/chromium', '/usr/bin/apt-get'], run: () => true });
    expect(ensureChromium(here)).toBe('/usr/bin/chromium');
    expect(here.commandLines).toEqual([]);
  });

  test('refuses a named program that does not exist instead of taking another', () => {
    const here = machine({ environment: { CHROMIUM: '/opt/gone' }, files: ['/usr/bin/chromium'] });
    expect(() => ensureChromium(here)).toThrow('CHROMIUM names /opt/gone, which does not exist');
  });

  test('installs the package as root', () => {
    const here = machine({ files: ['/usr/bin/apt-get'], run: packages((line) => !line.startsWith('sudo')) });
    expect(ensureChromium(here)).toBe('/usr/bin/chromium-headless-shell');
    expect(here.commandLines.filter((line) => line.includes('apt-get'))).toEqual([
      'apt-get update',
      'env DEBIAN_FRONTEND=noninteractive apt-get install --yes chromium-headless-shell',
    ]);
  });

  test('installs the whole browser where the packages have no headless shell', () => {
    const mayRun = (line: string): boolean => !line.startsWith('sudo') && !line.endsWith('headless-shell');
    const here = machine({ files: ['/usr/bin/apt-get'], run: packages(mayRun) });
    expect(ensureChromium(here)).toBe('/usr/bin/chromium');
  });

  test('installs the package through sudo where that asks for no password', () => {
    const here = machine({ files: ['/usr/bin/apt-get'], run: packages((line) => line.startsWith('sudo')) });
    expect(ensureChromium(here)).toBe('/usr/bin/chromium-headless-shell');
    expect(here.commandLines).toContain('sudo --non-interactive apt-get update');
  });

  test.each([
    ['without the rights of root', machine({ files: ['/usr/bin/apt-get'], run: () => false })],
    ['without a known package manager', machine({ run: () => true })],
    ['when the installation fails', machine({ files: ['/usr/bin/apt-get'], run: (line) => !line.includes('apt-get') })],
    ['on a system whose packages are not known', machine({ platform: 'darwin', run: () => true })],
  ])('says in one sentence what to do %s', (_where, here) => {
    expect(() => ensureChromium(here)).toThrow(
      /^No Chromium was found: install Chromium, or set CHROMIUM to the path of its program\.$/,
    );
  });
});
