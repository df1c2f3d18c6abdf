/** Why fields of a form are not taken, by their names. */
export type FieldProblems = Readonly<Record<string, string>>;
