import { z } from "zod";
import { longestText } from "../../../lib/schema/cells.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { type DecimalSign, figureOf, figureProblem } from "../figures.ts";

/** What a form of this folder is read beside. */
export interface RecordContext {
  readonly unit: string;
  /** Of its engine. */
  readonly cylinders: number;
  /** The last day that may be told. */
  readonly latest: IsoDate;
  /** The viewer's decimal sign. */
  readonly sign: DecimalSign;
  /** The viewer, who is kept with what was recorded. */
  readonly by: string;
}

export type ReadRecord<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: FieldProblems };

/** A field as it was typed. */
export const typed = z.string().max(5_000);

/** The fields of a repair and of a swap that tell the work and its price. */
export const tookFields = { cost: typed, labourHours: typed, downtimeDays: typed, remarks: typed };
export type TookFields = { readonly [K in keyof typeof tookFields]: string };

/** Up to these, as the files have them (lib/schema/rows.ts). */
export const most = { meter: 10_000_000, cost: 1_000_000_000_000, hours: 20_000, days: 4_000 } as const;

const isDate = (text: string) => /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(`${text}T00:00:00Z`));

/** Reads the fields of a form one by one and gathers the reasons of those that are not taken. */
export function fieldReader({ latest, sign }: Pick<RecordContext, "latest" | "sign">) {
  const problems: Record<string, string> = {};
  const refuse = (field: string, reason: string) => {
    problems[field] ??= reason;
  };
  return {
    problems,
    refuse,
    date: (field: string, text: string): IsoDate => {
      if (!isDate(text)) refuse(field, "Give the day as year, month and day.");
      else if (text > latest) refuse(field, "The day lies in the future.");
      else if (text < "1900") refuse(field, "The year has four figures and is not before 1900.");
      return text;
    },
    /** A figure from `least` on, else from 0; null where the field is blank, which `needed` does not take. */
    figure: (
      field: string,
      text: string,
      take: { readonly least?: number; readonly most: number; readonly needed?: string },
    ): number | null => {
      const { least = 0 } = take;
      const value = figureOf(text, sign);
      if (value === null) {
        if (take.needed !== undefined) refuse(field, take.needed);
        return null;
      }
      if (value >= least && value <= take.most) return value;
      const range = `A figure from ${least.toLocaleString("en-GB")} to ${take.most.toLocaleString("en-GB")}.`;
      refuse(field, figureProblem(text, sign) ?? range);
      return null;
    },
    /** What people wrote; null where nothing was. */
    text: (field: string, given: string): string | null => {
      const text = given.replace(/\r\n/g, "\n").trim();
      if (text.length > longestText) refuse(field, `At most ${longestText.toLocaleString("en-GB")} letters.`);
      else if (/[^\P{Cc}\t\n]/u.test(text)) refuse(field, "Letters and figures that can be seen.");
      return text === "" ? null : text;
    },
    /** What must be written. */
    reason: (field: string, given: string, needed: string): string => {
      const text = given.replace(/\r\n/g, "\n").trim();
      if (!/[\p{L}\p{N}]/u.test(text)) refuse(field, needed);
      else if (text.length > 500) refuse(field, "At most 500 letters; a note on the unit may hold more.");
      else if (/[^\P{Cc}\t\n]/u.test(text)) refuse(field, "Letters and figures that can be seen.");
      return text;
    },
    done: <T>(value: () => T): ReadRecord<T> =>
      Object.keys(problems).length > 0 ? { ok: false, problems } : { ok: true, value: value() },
  };
}

/** What the work took, as the fields tell it; null where a field is blank. */
export const readTook = (fields: TookFields, read: ReturnType<typeof fieldReader>) => ({
  cost: read.figure("cost", fields.cost, { most: most.cost }),
  labourHours: read.figure("labourHours", fields.labourHours, { most: most.hours }),
  downtimeDays: read.figure("downtimeDays", fields.downtimeDays, { most: most.days }),
  remarks: read.text("remarks", fields.remarks),
});
