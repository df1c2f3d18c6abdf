import type { WindowDates } from "../../lib/schema/report.ts";
import type { Formats } from "../../lib/viewing/formats.ts";
import { percentOf, type TimeSpan } from "./time-span.ts";

/** What is drawn for one forecast on an axis; places are per cent of its width. */
export type WindowDrawing =
  | { readonly kind: "none" }
  | { readonly kind: "crossed" }
  /** All of it lies beyond the axis. */
  | { readonly kind: "beyond" }
  | {
      readonly kind: "window";
      readonly early: number;
      /** null: beyond the axis. */
      readonly likely: number | null;
      /** null: open, it lies beyond the axis. */
      readonly late: number | null;
      /** From the engine model only: this engine has too few tests of its own. */
      readonly modelOnly: boolean;
    };

/** Where on the axis the planned disposal before a window lies, per cent; null: none, or beyond the axis. */
export const soldAt = ({ soldOn }: WindowDates, span: TimeSpan): number | null =>
  soldOn === undefined || soldOn > span.to ? null : Math.max(0, percentOf(span, soldOn));

export function windowDrawing(dates: WindowDates, span: TimeSpan): WindowDrawing {
  if (dates.status === "crossed") return { kind: "crossed" };
  if (dates.p10 === null) return { kind: "none" };
  const within = (date: string | null) => (date === null || date > span.to ? null : Math.max(0, percentOf(span, date)));
  const early = within(dates.p10);
  if (early === null) return { kind: "beyond" };
  return {
    kind: "window",
    early,
    likely: within(dates.p50),
    late: within(dates.p90),
    modelOnly: dates.status === "too-few-tests",
  };
}

/** Whether anything of a unit's two windows is drawn. */
export const hasWindow = (
  { topEnd, bottomEnd }: { readonly topEnd: WindowDates; readonly bottomEnd: WindowDates },
  span: TimeSpan,
): boolean => [topEnd, bottomEnd].some((dates) => windowDrawing(dates, span).kind !== "none");

interface LikelyWords {
  readonly part: "top" | "bottom" | null;
  readonly when: string;
  readonly modelOnly: boolean;
  /** The planned disposal where it comes before; null: it does not. */
  readonly soldOn: string | null;
  /** The likely date lies beyond the horizon. */
  readonly beyond: boolean;
}

/** The column "Repair likely": one short line for each class that is foreseen, else one line that says why not. */
export function likelyWords(
  windows: { readonly topEnd: WindowDates; readonly bottomEnd: WindowDates },
  horizonEnd: string,
  f: Formats,
): readonly LikelyWords[] {
  const parts = [
    ["top", windows.topEnd],
    ["bottom", windows.bottomEnd],
  ] as const;
  const lines = parts.flatMap(([part, dates]): LikelyWords[] => {
    if (dates.status === "crossed") return [{ part, when: "now", modelOnly: false, soldOn: null, beyond: false }];
    if (dates.p10 === null) return [];
    const when = dates.p50 === null ? `after ${f.month(horizonEnd)}` : f.forecast(dates.p50, dates.p10, dates.p90);
    return [
      {
        part,
        when,
        modelOnly: dates.status === "too-few-tests",
        soldOn: dates.soldOn ?? null,
        beyond: dates.p50 === null,
      },
    ];
  });
  if (lines.length > 0) return lines;
  const tooFew = parts.some(([, dates]) => dates.status === "too-few-tests");
  return [
    { part: null, when: tooFew ? "too few tests" : "not foreseen", modelOnly: false, soldOn: null, beyond: false },
  ];
}

/** One forecast as a sentence, for those who do not see the drawing and for small screens. */
export function windowInWords(
  part: "top-end" | "bottom-end",
  dates: WindowDates,
  horizonEnd: string,
  f: Formats,
): string | null {
  if (dates.status === "crossed") return `${part} limit crossed`;
  if (dates.p10 === null) return null;
  const forecast = (date: string) => f.forecast(date, dates.p10, dates.p90);
  const likely = dates.p50 === null ? `likely after ${f.month(horizonEnd)}` : `likely ${forecast(dates.p50)}`;
  const model = dates.status === "too-few-tests" ? ", from the model only" : "";
  const source = `${model}${dates.soldOn === undefined ? "" : `, sold before, on ${f.date(dates.soldOn)}`}`;
  if (dates.p90 !== null) return `${part} ${forecast(dates.p10)} to ${forecast(dates.p90)}, ${likely}${source}`;
  const open = dates.p50 === null ? "" : ", no late end yet";
  return `${part} from ${forecast(dates.p10)}, ${likely}${open}${source}`;
}

/** Both forecasts of a unit in words, each a line. */
export function windowLines(
  windows: { readonly topEnd: WindowDates; readonly bottomEnd: WindowDates },
  horizonEnd: string,
  f: Formats,
): readonly string[] {
  const lines = [
    windowInWords("top-end", windows.topEnd, horizonEnd, f),
    windowInWords("bottom-end", windows.bottomEnd, horizonEnd, f),
  ].filter((line) => line !== null);
  if (lines.length > 0) return lines;
  const [none] = likelyWords(windows, horizonEnd, f);
  return [none?.when === "too few tests" ? "too few tests for a forecast" : "no repair foreseen"];
}
