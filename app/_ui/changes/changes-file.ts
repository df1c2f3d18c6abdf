import type { WindowDates } from "../../../lib/schema/report.ts";
import type { ToldChange } from "./told-change.ts";

type Cell = string | number | null;

const windowHeads = (part: string) =>
  ["then", "now"].flatMap((when) => ["status", "early", "likely", "late"].map((of) => `${part}_${of}_${when}`));

const heads = [
  "unit",
  "depot",
  "engine_model",
  "direction",
  "band_then",
  "band_now",
  ...windowHeads("top_end"),
  ...windowHeads("bottom_end"),
  "questions_then",
  "questions_now",
  "last_test_then",
  "last_test_now",
  "issued_then",
  "issued_now",
  "why",
] as const;

const window = (dates: WindowDates | undefined): readonly Cell[] =>
  dates === undefined ? [null, null, null, null] : [dates.status, dates.p10, dates.p50, dates.p90];

/** The heading of the file. */
export const changesFileHead: readonly Cell[] = heads;

/** A unit's line: values as they are kept, dates ISO 8601; empty where it was not, or is not, in the fleet. */
export function changesFileLine({ unit, depot, engineModel, was, now, change, why }: ToldChange): readonly Cell[] {
  return [
    unit,
    depot,
    engineModel,
    change.fleet ?? change.direction,
    was?.band ?? null,
    now?.band ?? null,
    ...window(was?.topEnd),
    ...window(now?.topEnd),
    ...window(was?.bottomEnd),
    ...window(now?.bottomEnd),
    was?.questions ?? null,
    now?.questions ?? null,
    was?.lastTestDate ?? null,
    now?.lastTestDate ?? null,
    was?.madeAt ?? null,
    now?.madeAt ?? null,
    why.join("; "),
  ];
}
