import { type JudgedMeasure, judgedMeasures } from "../../../lib/schema/words.ts";
import type { AddressParts } from "../compare/address.ts";

/** What readings are told apart by. */
export const splits = ["ahead", "model", "tester", "depot"] as const;
export type Split = (typeof splits)[number];

export interface RecordView {
  readonly measure: JudgedMeasure;
  readonly by: Split;
}

const first = (part: AddressParts[string]): string | undefined => (typeof part === "string" ? part : part?.[0]);

export function readRecordAddress(parts: AddressParts): RecordView {
  const [measure, by] = [first(parts["measure"]), first(parts["by"])];
  return {
    measure: judgedMeasures.find((word) => word === measure) ?? "leak-down",
    by: splits.find((word) => word === by) ?? "ahead",
  };
}

export const trackRecordAddress = ({ measure, by }: RecordView): string => `/record?measure=${measure}&by=${by}`;

/** The forecasts behind the figures, or the figures: of everything, or of one group. */
export function trackRecordFileAddress(
  table: "readings" | "limits" | "scores" | "misses",
  group?: { readonly measure: JudgedMeasure; readonly by: Split; readonly key: string | null },
): string {
  const parts = new URLSearchParams({ table });
  if (group !== undefined) {
    parts.set("measure", group.measure);
    parts.set("by", group.by);
    parts.set("key", group.key ?? "");
  }
  return `/record.csv?${parts.toString()}`;
}
