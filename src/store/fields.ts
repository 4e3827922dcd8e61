/** Takes a value of unknown shape and gives it back as what it must be, built anew. @throws ShapeFault */
export type Read<T> = (value: unknown, place: string) => T;

/** Something that is not what it must be; the message is a phrase that names the place. */
export class ShapeFault extends Error {
  override readonly name = 'ShapeFault';
}

/** Longest text that is taken, in UTF-16 units: the largest cell that a file may have. */
const TEXT_LIMIT = 1_048_576;
const LIST_LIMIT = 10_000_000;

export const text: Read<string> = (value, place) => {
  if (typeof value !== 'string') throw new ShapeFault(`${place} is no text`);
  if (value.length > TEXT_LIMIT) throw new ShapeFault(`${place} is longer than ${TEXT_LIMIT} characters`);
  return value;
};

export const yesOrNo: Read<boolean> = (value, place) => {
  if (typeof value !== 'boolean') throw new ShapeFault(`${place} is neither true nor false`);
  return value;
};

export const finite: Read<number> = (value, place) => {
  if (typeof value !== 'number' || !Number.isFinite(value)) throw new ShapeFault(`${place} is no number`);
  return value;
};

/** A moment in milliseconds; unknown ones are `NaN` here and `null` in JSON. */
export const moment: Read<number> = (value, place) =>
  value === null || Number.isNaN(value) ? NaN : finite(value, place);

/** A whole number from 0 to `most`. */
export function count(most = Number.MAX_SAFE_INTEGER): Read<number> {
  return (value, place) => {
    const number = finite(value, place);
    if (!Number.isSafeInteger(number) || number < 0 || number > most)
      throw new ShapeFault(`${place} is no whole number from 0 to ${most}`);
    return number;
  };
}

export function oneOf<const T>(allowed: readonly T[]): Read<T> {
  return (value, place) => {
    const found = allowed.find((one) => one === value);
    if (found === undefined) throw new ShapeFault(`${place} is none of the values known`);
    return found;
  };
}

export function listOf<T>(item: Read<T>, most = LIST_LIMIT): Read<T[]> {
  return (value, place) => {
    if (!Array.isArray(value)) throw new ShapeFault(`${place} is no list`);
    if (value.length > most) throw new ShapeFault(`${place} has more than ${most} entries`);
    return value.map((one: unknown, index) => item(one, `${place}[${index}]`));
  };
}

/** A field that may be absent. */
export class Optional<T> {
  readonly read: Read<T>;

  constructor(read: Read<T>) {
    this.read = read;
  }
}

export function optional<T>(read: Read<T>): Optional<T> {
  return new Optional(read);
}

/** A reader for each field: {@link optional} where the field may be absent. */
export type Fields<T> = {
  readonly [Key in keyof T]-?: Partial<Pick<T, Key>> extends Pick<T, Key>
    ? Optional<Exclude<T[Key], undefined>>
    : Read<T[Key]>;
};

/** An object with these fields and no other, whatever its prototype says. */
export function shape<T extends object>(fields: Fields<T>): Read<T> {
  const entries = Object.entries<unknown>(fields);
  const known = new Set(entries.map(([key]) => key));
  return (value, place) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value))
      throw new ShapeFault(`${place} is no record`);
    const stray = Reflect.ownKeys(value).find((key) => !known.has(String(key)));
    if (stray !== undefined) throw new ShapeFault(`${place} has a field that is not known`);
    const result: Record<string, unknown> = {};
    for (const [key, field] of entries) {
      const given: unknown = Object.getOwnPropertyDescriptor(value, key)?.value;
      if (field instanceof Optional) {
        if (given !== undefined) result[key] = field.read(given, `${place}.${key}`);
      } else {
        result[key] = (field as Read<unknown>)(given, `${place}.${key}`);
      }
    }
    return result as T;
  };
}

/** A record of one of several shapes, told apart by the text in its field `key`. */
export function oneShapeBy<T extends object>(
  key: keyof T & string,
  shapes: Readonly<Record<string, Read<T>>>,
): Read<T> {
  const byName = new Map(Object.entries(shapes));
  return (value, place) => {
    const name: unknown =
      typeof value === 'object' && value !== null ? Object.getOwnPropertyDescriptor(value, key)?.value : undefined;
    const read = typeof name === 'string' ? byName.get(name) : undefined;
    if (read === undefined) throw new ShapeFault(`${place}.${key} is none of the values known`);
    return read(value, place);
  };
}
