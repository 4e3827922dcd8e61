/** Distinct texts with small numbers for them; a column stores the numbers. Codes are given in order of first appearance and never change. */
export class Dictionary {
  readonly #labels: string[];
  readonly #codes: Map<string, number>;

  constructor(labels: readonly string[] = []) {
    this.#labels = [...labels];
    this.#codes = new Map(labels.map((label, code) => [label, code]));
  }

  get size(): number {
    return this.#labels.length;
  }

  get labels(): readonly string[] {
    return this.#labels;
  }

  /** The label of a code. @throws where the code was never given. */
  label(code: number): string {
    const label = this.#labels[code];
    if (label === undefined) throw new RangeError(`No label has code ${code}.`);
    return label;
  }

  /** The code of a label that is here already, else `-1`. */
  find(label: string): number {
    return this.#codes.get(label) ?? -1;
  }

  /** The code of a label, given now where it is new. */
  intern(label: string): number {
    const known = this.#codes.get(label);
    if (known !== undefined) return known;
    const code = this.#labels.length;
    this.#labels.push(label);
    this.#codes.set(label, code);
    return code;
  }

  /** For each code of `this`, the code of the same label in `target`, interned where new. */
  mapInto(target: Dictionary): Uint32Array {
    return Uint32Array.from(this.#labels, (label) => target.intern(label));
  }
}
