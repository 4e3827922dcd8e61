import type { FilePlan, Given, GivenRange } from '../domain/file-plan.ts';

/** What the technician stated, line by line: for the whole file, and in its place for ranges of lines. */
export class GivenLines {
  readonly #whole: Given;
  readonly #ranges: readonly GivenRange[];
  #given: Given = {};
  #from = 0;
  #to = -1;

  constructor({ given, givenRanges = [] }: FilePlan) {
    this.#whole = given;
    this.#ranges = givenRanges.filter(({ from, to }) => from <= to);
  }

  /** What is stated for a physical line: the same object for neighbouring lines until it changes. */
  at(line: number): Given {
    if (line < this.#from || line > this.#to) this.#moveTo(line);
    return this.#given;
  }

  #moveTo(line: number): void {
    this.#from = 0;
    this.#to = Infinity;
    this.#given = this.#whole;
    for (const { from, to, given } of this.#ranges) {
      if (line < from) this.#to = Math.min(this.#to, from - 1);
      else if (line > to) this.#from = Math.max(this.#from, to + 1);
      else {
        this.#from = Math.max(this.#from, from);
        this.#to = Math.min(this.#to, to);
        this.#given = { ...this.#given, ...given };
      }
    }
  }
}
