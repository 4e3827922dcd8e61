/** What kinds of names readings bring. */
export const NAME_KINDS = ['family', 'point', 'meter'] as const;
export type NameKind = (typeof NAME_KINDS)[number];

/** What the technician says of a name that nothing knew: it is new, or it is another name for one that is known. */
export interface NameAnswer {
  readonly kind: NameKind;
  readonly name: string;
  /** The family of a point. */
  readonly family?: string;
  /** The known name that it stands for; absent where it is new. */
  readonly meaning?: string;
}
