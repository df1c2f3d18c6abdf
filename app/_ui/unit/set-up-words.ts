import type { TestLine } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";

/** The conditions of a test as recorded, each in a few words; what was not recorded is left out. */
export function setUpWords({ setUp, entered }: Pick<TestLine, "setUp" | "entered">, f: Formats): string[] {
  const told = (value: boolean | null, yes: string, no: string) => (value === null ? [] : [value ? yes : no]);
  const order = entered.toSorted((a, b) => (a.order ?? 0) - (b.order ?? 0));
  return [
    ...told(setUp.warm, "warm", "engine cold"),
    ...told(setUp.throttleOpen, "throttle open", "throttle shut"),
    ...told(setUp.allPlugsOut, "all plugs out", "plugs left in"),
    ...told(setUp.tdcConfirmed, "top dead centre confirmed", "top dead centre not confirmed"),
    ...told(setUp.gaugeZeroed, "gauge zeroed", "gauge not zeroed"),
    ...(setUp.orificeMm === null ? [] : [`${f.number(setUp.orificeMm, decimalsOf(setUp.orificeMm))}\u00a0mm orifice`]),
    ...(setUp.crankingRpm === null ? [] : [`cranked at ${f.number(setUp.crankingRpm)}/min`]),
    ...(setUp.altitudeM === null ? [] : [`at ${f.number(setUp.altitudeM)}\u00a0m`]),
    ...(setUp.barometerKpa === null ? [] : [`air at ${f.number(setUp.barometerKpa, 1)}\u00a0kPa`]),
    ...(entered.length > 1 && entered.every((e) => e.order !== null)
      ? [`in the order ${order.map((e) => e.cylinder).join(", ")}`]
      : []),
  ];
}

/** The digits with which a figure was written, at most three. */
export const decimalsOf = (value: number): number => Math.min(3, String(value).split(".")[1]?.length ?? 0);
