// Runs the benches whose path contains the given word, or all, one after the other: npm run bench [-- word]
import process from 'node:process';

/** A bench measures something and prints what it found, line by line. */
interface Bench {
  readonly run: (print: (line: string) => void) => Promise<void>;
}

const [word = ''] = process.argv.slice(2);
const benches = Object.entries(import.meta.glob<Bench>('../bench/**/*.bench.ts')).filter(([path]) =>
  path.includes(word),
);
if (benches.length === 0) throw new Error(`No bench has "${word}" in its path.`);
for (const [path, load] of benches) {
  console.log(path.replace('../bench/', '').replace('.bench.ts', ''));
  const { run } = await load();
  await run((line) => {
    console.log(`  ${line}`);
  });
}
