import type { RepairFact, TestFact } from "../schema/facts.ts";

/** Orders that don't depend on the order in which files were read, nor on a language. */

export const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Date, meter, then what tells two tests of one day apart. */
export const compareTests = (a: TestFact, b: TestFact): number =>
  compareText(a.date, b.date) ||
  a.meter - b.meter ||
  compareText(a.test, b.test) ||
  a.attempt - b.attempt ||
  compareText(a.instrument ?? "", b.instrument ?? "");

export const compareRepairs = (a: RepairFact, b: RepairFact): number =>
  compareText(a.date, b.date) ||
  a.meter - b.meter ||
  compareText(a.scope, b.scope) ||
  compareText(a.file, b.file) ||
  a.line - b.line;

export const compareSource = (a: { file: string; line: number }, b: { file: string; line: number }): number =>
  compareText(a.file, b.file) || a.line - b.line;
