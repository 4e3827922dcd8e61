import type { FlowPage, GivenFile } from './flow-page.ts';
import { writeRow } from '../../src/intake/write-row.ts';

/** A log, a table of repairs and a table of bands in which each text stands wherever a technician may write one. */
export function filesOf(texts: readonly string[], fileName: string): readonly GivenFile[] {
  const table = (rows: readonly (readonly string[])[]): string =>
    rows.map((cells) => `${writeRow(cells, ',')}\n`).join('');
  const log = texts.flatMap((text, at) => {
    const time = `2026-03-14T${String(8 + Math.floor(at / 60)).padStart(2, '0')}:${String(at % 60).padStart(2, '0')}:00`;
    return [
      [time, text, text, text, 'live', 'DC volts', 'board', '12.02', 'V', text],
      // A row that is set aside.
      [time, text, text, text, 'live', 'DC volts', 'board', text, 'V', text],
    ];
  });
  const header = ['time', 'repair', 'family', 'point', 'stage', 'mode', 'specimen', 'reading', 'unit', 'meter'];
  const repairs = texts.map((text) => [text, text, text, '2026-03-14', '2026-03-15', 'repaired', text]);
  const bands = texts.map((text) => [text, text, 'DC volts', 'percent', '12', '5', 'V', text]);
  return [
    { name: fileName, content: table([header, ...log]) },
    { name: `repairs ${fileName}`, content: table([['repair', 'family', 'complaint', 'received', 'returned', 'outcome', 'replaced'], ...repairs]) },
    { name: `bands ${fileName}`, content: table([['family', 'point', 'mode', 'kind', 'nominal', 'percent', 'unit', 'basis'], ...bands]) },
  ]; // prettier-ignore
}

/** Every place of the page, and every view of a repair and a family of this name. */
export function addressesOf(name: string): readonly string[] {
  const part = encodeURIComponent(name);
  const check = new URLSearchParams({ family: name, point: name, mode: 'DC volts' }).toString();
  return [
    '#/shift',
    '#/readings',
    `#/readings?${check}`,
    '#/repairs',
    `#/repairs/${part}`,
    `#/repairs/${part}/sheet`,
    '#/bands',
    `#/bands/check?${check}`,
    `#/bands/family?family=${part}`,
    `#/bands/proposals?family=${part}`,
    '#/bands/meters',
    '#/families',
    `#/families/${part}`,
    `#/families/${part}/sheet`,
    `#/families/${part}/kit`,
    `#/families/${part}/edit`,
  ];
}

/** Goes to every address and has each view be there; runs `look` in each. */
export async function walk(
  { page, go, settled }: FlowPage,
  addresses: readonly string[],
  look: (address: string) => Promise<void>,
): Promise<void> {
  for (const address of addresses) {
    await go(address);
    await page.locator('bt-app').getByRole('main').locator('> *').first().waitFor({ state: 'attached' });
    await settled();
    await look(address);
  }
}
