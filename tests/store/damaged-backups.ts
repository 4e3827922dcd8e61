import type { Frame } from '../../src/store/backup-frames.ts';
import { Random } from '../support/bench/random.ts';
import { framesIn, sealed } from './backup-file.ts';

/** A backup with something wrong with it, and what. */
export interface DamagedBackup {
  readonly damage: string;
  readonly file: Blob;
}

/** Three hundred damaged copies of a sound backup: raw damage, and whole files sealed anew around hostile content. */
export async function damagedBackups(sound: Blob, seed: number): Promise<readonly DamagedBackup[]> {
  const bytes = new Uint8Array(await sound.arrayBuffer());
  const frames = await framesIn(sound);
  const random = new Random(seed);
  const result: DamagedBackup[] = [];
  const add = (damage: string, content: BlobPart): void => {
    result.push({ damage, file: new Blob([content]) });
  };
  for (let percent = 0; percent < 100; percent += 1)
    add(`cut off at ${percent} %`, bytes.slice(0, Math.floor((bytes.length * percent) / 100)));
  for (let copy = 0; copy < 100; copy += 1) {
    const at = random.whole(0, bytes.length - 1);
    add(`a bit flipped in byte ${at}`, bytes.with(at, bytes[at]! ^ (1 << random.whole(0, 7))));
  }
  for (let copy = 0; copy < 10; copy += 1)
    add(`${copy + 1} bytes behind its end`, Uint8Array.of(...bytes, ...bytes.slice(0, copy + 1)));
  for (let copy = 0; copy < 20; copy += 1) {
    const at = random.whole(0, bytes.length - 64);
    const gone = random.whole(1, 64);
    add(`${gone} bytes missing at ${at}`, Uint8Array.of(...bytes.slice(0, at), ...bytes.slice(at + gone)));
  }
  const resealed = [...hostileFrames(frames), ...shuffledFrames(frames, random, 300 - result.length)];
  for (const [damage, changed] of resealed) result.push({ damage, file: await sealed(changed) });
  return result.slice(0, 300);
}

type Changed = readonly [damage: string, frames: readonly Frame[]];

/** Files that are sealed soundly but say what must not be. */
function hostileFrames(frames: readonly Frame[]): Changed[] {
  const edit = (kind: Frame['kind'], damage: string, from: string, to: string): Changed => {
    const index = frames.findIndex((frame) => frame.kind === kind);
    const text = new TextDecoder().decode(frames[index]!.content);
    if (!text.includes(from)) throw new Error(`There is no ${from} in ${kind}.`);
    return [damage, frames.with(index, { kind, content: new TextEncoder().encode(text.replace(from, to)) })];
  };
  return [
    edit('header', 'a newer format', '"format":2', '"format":3'),
    edit('header', 'an impossible format', '"format":2', '"format":-1'),
    edit('state', 'a price below nothing', '"price":1.25', '"price":-1.25'),
    edit('state', 'a rule of known-good boards with days below nothing', '"heldDays":90', '"heldDays":-90'),
    edit('state', 'a view that leads elsewhere', '"address":"#/readings', '"address":"https://elsewhere.invalid/'),
    edit('state', 'two settings', '"settings":[', '"settings":[{"prices":[]},'),
    edit('header', 'another program', '"app":"benchtally"', '"app":"tern-lane"'),
    edit('header', 'another number of imports', '"imports":2', '"imports":3'),
    edit('header', 'another number of readings', '"readings":', '"readings":1'),
    edit('header', 'another number of edits', '"edits":1', '"edits":2'),
    edit('header', 'a prototype', '{', '{"__proto__":{"pwned":true},'),
    edit('header', 'a list', '{', '[{'),
    edit('state', 'a prototype in a family', '"boost":true', '"boost":true,"__proto__":{"pwned":true}'),
    edit('state', 'a constructor in a band', '"point":"12V main"', '"point":"12V main","constructor":{}'),
    edit('state', 'a stray field', '"name":"M1"', '"name":"M1","more":1'),
    edit('state', 'a part of the state twice as another type', '"meters":[', '"meters":{},"meters":"x","toString":['),
    edit('state', 'a band that cannot be used', '"percent":5', '"percent":-5'),
    edit('state', 'a number as a name', '"name":"HERON-48"', '"name":48'),
    edit('state', 'a role that is none', '"role":"main"', '"role":"hasOwnProperty"'),
    edit('state', 'a number beyond all numbers', '"upTo":60', '"upTo":1e999'),
    edit('state', 'a nesting without end', '"families":[', `"families":[${'['.repeat(100_000)}`),
    edit('edits', 'a journal out of order', '"step":1', '"step":2'),
    edit('edits', 'a change of no part', '"part":"', '"part":"__proto__'),
    edit('import', 'a check sum of another', '"chunks":[', '"chunks":[1'),
    edit('import', 'another number of rows', '"rows":', '"rows":1'),
    edit('import', 'another size', '"bytes":', '"bytes":1'),
    edit('import', 'a hash that is none', '"hash":"', '"hash":"../'),
    edit('details', 'other details', '"noData":1', '"noData":2'),
  ];
}

/** Parts whose content the ledger's line or the file's size vouches for. */
const WITH_SUMS: ReadonlySet<Frame['kind']> = new Set(['details', 'chunk']);

/** Frames left out, doubled, swapped or changed, sealed anew. */
function shuffledFrames(frames: readonly Frame[], random: Random, count: number): Changed[] {
  return Array.from({ length: count }, (_none, copy): Changed => {
    const at = random.whole(0, frames.length - 1);
    const frame = frames[at]!;
    const next = frames[(at + 1) % frames.length]!;
    switch (copy % 4) {
      case 0:
        return [`part ${at} missing`, frames.filter((_frame, index) => index !== at)];
      case 1:
        return [`part ${at} doubled`, frames.toSpliced(at, 0, frame)];
      case 2:
        return [`parts ${at} and its next swapped`, frames.with(at, next).with((at + 1) % frames.length, frame)];
      default: {
        // Sealed anew, another name in the state is another bench and no damage: only parts with sums of their own are changed.
        const summed = frames.flatMap(({ kind }, place) => (WITH_SUMS.has(kind) ? place : []));
        const place = summed[at % summed.length]!;
        const changed = frames[place]!;
        const inside = random.whole(0, changed.content.length - 1);
        const content = changed.content.with(inside, changed.content[inside]! ^ (1 << random.whole(0, 7)));
        return [
          `byte ${inside} of part ${place} (${changed.kind}) changed`,
          frames.with(place, { ...changed, content }),
        ];
      }
    }
  });
}
