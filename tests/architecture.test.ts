import { readdirSync, readFileSync } from 'node:fs';
import { posix } from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';

/**
 * How one file reaches another: `value` is loaded with it, `type` is gone once compiled, `address` is only pointed at,
 * as a page points at the script of a worker it starts.
 */
type EdgeKind = 'value' | 'type' | 'address';

interface Edge {
  readonly line: number;
  /** What the source names: a relative path or a package; undefined where it is computed. */
  readonly target: string | undefined;
  readonly kind: EdgeKind;
}

interface Room {
  /** Rooms it may import anything from. */
  readonly rooms: readonly string[];
  /** Rooms it may import types from. */
  readonly types?: readonly string[];
  /** Rooms whose address it may take. */
  readonly addresses?: readonly string[];
  readonly packages?: readonly string[];
}

const core = ['domain', 'columns', 'statistics', 'intake', 'judging', 'learning', 'patterns', 'charts'] as const;

/** Who may import whom. A room is a folder of src, or, where its files differ in what they may do, a part of one. */
const rooms: Readonly<Record<string, Room>> = {
  domain: { rooms: [] },
  statistics: { rooms: [], packages: ['simple-statistics'] },
  charts: { rooms: [], packages: ['d3'] },
  columns: { rooms: ['domain'] },
  intake: { rooms: ['domain', 'columns', 'statistics'], packages: ['papaparse'] },
  judging: { rooms: ['domain', 'columns'] },
  learning: { rooms: ['domain', 'columns', 'statistics'], types: ['judging'] },
  patterns: { rooms: ['domain', 'columns', 'statistics'], types: ['judging'] },
  store: { rooms: ['domain', 'columns'], packages: ['idb'] },
  'worker/contract': { rooms: [], types: [...core, 'store'] },
  'worker/bench': { rooms: [...core, 'store', 'worker/contract'] },
  'worker/entry': { rooms: [...core, 'store', 'worker/contract', 'worker/bench'] },
  'worker/client': { rooms: ['worker/contract', 'worker/start'] },
  'worker/start': { rooms: ['worker/trusted-script'], addresses: ['worker/entry'] },
  'worker/start.portable': { rooms: [], addresses: ['worker/entry'] },
  'worker/trusted-script': { rooms: [] },
  offline: { rooms: ['worker/trusted-script'] },
  session: { rooms: ['domain', 'columns', 'worker/client', 'worker/contract', 'sample-logs'] },
  ui: {
    rooms: ['session', 'charts', 'domain', 'columns', 'ui/charts'],
    packages: ['lit', '@fontsource/atkinson-hyperlegible-next', '@fontsource/atkinson-hyperlegible-mono'],
  },
  'ui/charts': { rooms: ['session', 'charts', 'domain', 'columns', 'ui'], packages: ['lit', 'd3'] },
  main: { rooms: ['session', 'worker/client', 'offline', 'ui', 'ui/charts'] },
};

/** The room of a file or folder inside src, such as `ui` for `ui/grid/cell.ts`; undefined for a stray one. */
function roomOf(path: string): string | undefined {
  const [folder = '', part = ''] = path.split('/').map((name) => name.replace(/\.ts$/, ''));
  return [`${folder}/${part}`, folder].find((room) => Object.hasOwn(rooms, room));
}

/** The sample logs stand beside the sources, as something that a room may load; nothing else outside does. */
function outsideRoomOf(path: string): string | undefined {
  return path.startsWith('sample-logs/') ? 'sample-logs' : undefined;
}

function readEdges(source: string): Edge[] {
  const file = ts.createSourceFile('source.ts', source, ts.ScriptTarget.Latest, true);
  const edges: Edge[] = [];
  const add = (node: ts.Node, target: ts.Node | undefined, kind: EdgeKind): void => {
    const named = target !== undefined && ts.isStringLiteralLike(target) ? target.text : undefined;
    const line = file.getLineAndCharacterOfPosition(node.getStart()).line + 1;
    // A query such as ?worker&url asks for the address of the built file.
    edges.push({ line, target: named?.replace(/\?.*$/, ''), kind: named?.includes('?') === true ? 'address' : kind });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) {
      const typeOnly = node.importClause?.phaseModifier === ts.SyntaxKind.TypeKeyword;
      add(node, node.moduleSpecifier, typeOnly ? 'type' : 'value');
    } else if (ts.isExportDeclaration(node)) {
      if (node.moduleSpecifier !== undefined) add(node, node.moduleSpecifier, node.isTypeOnly ? 'type' : 'value');
    } else if (ts.isImportTypeNode(node)) {
      add(node, ts.isLiteralTypeNode(node.argument) ? node.argument.literal : undefined, 'type');
    } else if (ts.isExternalModuleReference(node)) {
      add(node, node.expression, 'value');
    } else if (ts.isCallExpression(node)) {
      if (node.expression.kind === ts.SyntaxKind.ImportKeyword) add(node, node.arguments[0], 'value');
      else if (/^import\.meta\.glob$/.test(node.expression.getText())) add(node, node.arguments[0], 'value');
    } else if (ts.isNewExpression(node) && node.expression.getText() === 'URL') {
      if (node.arguments?.[1]?.getText() === 'import.meta.url') add(node, node.arguments[0], 'address');
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return edges;
}

/** Why an import is against the table, or undefined where it is not. */
function fault(room: string, path: string, { target, kind }: Edge): string | undefined {
  const table = rooms[room]!;
  if (target === undefined) return 'takes an import from a computed name, which cannot be checked';
  if (!target.startsWith('.')) {
    const name = target.split('/', target.startsWith('@') ? 2 : 1).join('/');
    if (table.packages?.includes(name) === true) return undefined;
    return `imports the package ${name}; ${room} may import ${list(table.packages)}`;
  }
  const resolved = posix.join('src', posix.dirname(path), target);
  const targetRoom = resolved.startsWith('src/') ? roomOf(resolved.slice('src/'.length)) : outsideRoomOf(resolved);
  if (targetRoom === undefined) return `reaches ${resolved}, which is in no room`;
  const allowed = [table.rooms, kind === 'type' ? table.types : [], kind === 'address' ? table.addresses : []].flat();
  if (targetRoom === room || allowed.includes(targetRoom)) return undefined;
  const typesOnly = table.types === undefined ? '' : `, and types of ${list(table.types)}`;
  return `imports ${targetRoom} (${kind} of ${target}); ${room} may import ${list(table.rooms)}${typesOnly}`;
}

function list(names: readonly string[] | undefined): string {
  return names === undefined || names.length === 0 ? 'none' : names.join(', ');
}

/** The faults of a file, one line each. */
function importFaults(path: string, source: string): string[] {
  const room = roomOf(path);
  if (room === undefined) return [`src/${path} is in no room`];
  return readEdges(source).flatMap((edge) => {
    const reason = fault(room, path, edge);
    return reason === undefined ? [] : [`src/${path}:${edge.line} ${reason}`];
  });
}

const sinks =
  /\b(?:innerHTML|outerHTML|insertAdjacentHTML|unsafeHTML|unsafeSVG|setHTMLUnsafe|document\s*\.\s*write(?:ln)?)\b/;

/** Uses of the ways by which text becomes markup, one line each. */
function sinkFaults(path: string, source: string): string[] {
  return source.split('\n').flatMap((line, index) => {
    const match = sinks.exec(line);
    return match === null ? [] : [`src/${path}:${index + 1} uses ${match[0]}`];
  });
}

const root = new URL('../', import.meta.url);
const sources = readdirSync(new URL('src/', root), { recursive: true, encoding: 'utf8' })
  .map((path) => path.replaceAll('\\', '/'))
  .filter((path) => path.endsWith('.ts'))
  .map((path) => ({ path, source: readFileSync(new URL(`src/${path}`, root), 'utf8') }));

describe('the sources', () => {
  test('are read', () => {
    expect(sources.map(({ path }) => roomOf(path))).toContain('domain');
  });

  test('import only what the rooms allow', () => {
    expect(sources.flatMap(({ path, source }) => importFaults(path, source))).toEqual([]);
  });

  test('never turn text into markup', () => {
    expect(sources.flatMap(({ path, source }) => sinkFaults(path, source))).toEqual([]);
  });
});

test('the top level holds only what belongs there', () => {
  const kept = ['README.md', 'DEVELOPERS.md', 'package.json', 'package-lock.json', 'tsconfig.json', 'index.html'];
  const expected = new Set([...kept, 'vite.config.ts', 'eslint.config.js', 'src', 'tests', 'sample-logs']);
  const made = /^(?:node_modules|dist|dist-.*|coverage)$/;
  const strays = readdirSync(root).filter((name) => !name.startsWith('.') && !made.test(name) && !expected.has(name));
  expect(strays).toEqual([]);
});

describe('the checker of imports', () => {
  test.each([
    ['a static import', 'import { add } from "../statistics/add.ts";'],
    ['an import for its effect', 'import "../statistics/add.ts";'],
    ['an import of a type', 'import type { Add } from "../statistics/add.ts";'],
    ['an import of a type among values', 'import { type Add } from "../statistics/add.ts";'],
    ['an export of all', 'export * from "../statistics/add.ts";'],
    ['an export of a type', 'export type { Add } from "../statistics/add.ts";'],
    ['an import on demand', 'const m = await import("../statistics/add.ts");'],
    ['an import on demand with a template', 'const m = await import(`../statistics/add.ts`);'],
    ['a type named by its module', 'let a: import("../statistics/add.ts").Add;'],
    ['an import of many', 'const m = import.meta.glob("../statistics/*.ts");'],
    ['an address', 'const u = new URL("../statistics/add.ts", import.meta.url);'],
    ['an address by a query', 'import u from "../statistics/add.ts?worker&url";'],
    ['an import over several lines', 'import {\n  add,\n} from "../statistics/add.ts";'],
  ])('finds %s', (_name, source) => {
    expect(importFaults('domain/planted.ts', source)).toEqual([
      expect.stringMatching(/^src\/domain\/planted\.ts:1 imports statistics .*; domain may import none$/),
    ]);
  });

  test('names the line of a fault', () => {
    expect(importFaults('domain/planted.ts', 'const a = 1;\n\nimport "lit";')).toEqual([
      'src/domain/planted.ts:3 imports the package lit; domain may import none',
    ]);
  });

  test('passes over text and comments', () => {
    const source = '// import "lit";\n/* import("lit") */ export const text = \'import "lit"\';';
    expect(importFaults('domain/planted.ts', source)).toEqual([]);
  });

  test('refuses a computed name', () => {
    expect(importFaults('domain/planted.ts', 'void import(name);')).toEqual([expect.stringContaining('computed name')]);
  });

  test('refuses a file outside of every room, and an import of one', () => {
    expect(importFaults('tools/planted.ts', '')).toEqual(['src/tools/planted.ts is in no room']);
    expect(importFaults('domain/planted.ts', 'import "../../tests/x.ts";')).toEqual([
      'src/domain/planted.ts:1 reaches tests/x.ts, which is in no room',
    ]);
  });

  test('lets the session alone load the sample logs', () => {
    const source = 'const m = import.meta.glob("../../sample-logs/*.csv", { query: "?url" });';
    expect(importFaults('session/planted.ts', source)).toEqual([]);
    expect(importFaults('ui/planted.ts', source)).toHaveLength(1);
  });

  test.each([
    ['judging', 'domain', 'value'],
    ['intake', 'statistics', 'value'],
    ['learning', 'judging', 'type'],
    ['worker/contract', 'columns', 'type'],
    ['worker/bench', 'patterns', 'value'],
    ['worker/entry', 'worker/bench', 'value'],
    ['worker/start', 'worker/entry', 'address'],
    ['session', 'worker/client', 'value'],
    ['ui', 'session', 'value'],
    ['main', 'ui', 'value'],
  ] as const)('allows %s to import %s (%s)', (from, to, kind) => {
    expect(importFaults(fileOf(from), importOf(from, to, kind))).toEqual([]);
  });

  test.each([
    ['domain', 'columns', 'type'],
    ['columns', 'judging', 'value'],
    ['learning', 'judging', 'value'],
    ['patterns', 'learning', 'type'],
    ['worker/contract', 'columns', 'value'],
    ['worker/client', 'worker/entry', 'value'],
    ['worker/client', 'domain', 'value'],
    ['session', 'worker/entry', 'type'],
    ['session', 'ui', 'value'],
    ['ui', 'store', 'value'],
    ['ui', 'judging', 'value'],
    ['main', 'worker/entry', 'value'],
  ] as const)('forbids %s to import %s (%s)', (from, to, kind) => {
    expect(importFaults(fileOf(from), importOf(from, to, kind))).toHaveLength(1);
  });

  test.each([
    ['intake', 'papaparse', 'judging'],
    ['statistics', 'simple-statistics', 'learning'],
    ['charts', 'd3', 'ui'],
    ['ui/charts', 'd3', 'ui/grid'],
    ['ui', 'lit/decorators.js', 'charts'],
    ['store', 'idb', 'session'],
  ])('lets %s alone import %s', (home, name, elsewhere) => {
    expect(importFaults(`${home}/planted.ts`, `import "${name}";`)).toEqual([]);
    expect(importFaults(`${elsewhere}/planted.ts`, `import "${name}";`)).toHaveLength(1);
  });
});

test.each([
  'el.innerHTML = text;',
  'html`<p .innerHTML=${text}></p>`;',
  'el["outerHTML"] = text;',
  'el.insertAdjacentHTML("beforeend", text);',
  'import { unsafeHTML } from "lit/directives/unsafe-html.js";',
  'document.write(text);',
])('the checker of markup finds %s', (source) => {
  expect(sinkFaults('ui/planted.ts', `const a = 1;\n${source}`)).toEqual([
    expect.stringMatching(/^src\/ui\/planted\.ts:2 uses /),
  ]);
});

/** A file of a room: one in its folder, or the file that is the room. */
function fileOf(room: string): string {
  return room === 'main' || room.startsWith('worker/') ? `${room}.ts` : `${room}/planted.ts`;
}

function importOf(from: string, to: string, kind: EdgeKind): string {
  const target = posix.relative(posix.dirname(fileOf(from)), fileOf(to));
  const path = target.startsWith('.') ? target : `./${target}`;
  if (kind === 'address') return `new URL("${path}", import.meta.url);`;
  return kind === 'type' ? `import type { X } from "${path}";` : `import { x } from "${path}";`;
}

test('every property draws by tests/support/fast-check.ts, so that a run does not depend on the dice', () => {
  const drawing = readdirSync('tests', { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.ts') && path !== posix.join('support', 'fast-check.ts'))
    .filter((path) => /^import .* from 'fast-check';$/m.test(readFileSync(posix.join('tests', path), 'utf8')));
  expect(drawing).toEqual([]);
});
