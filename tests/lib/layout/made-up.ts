import { readFleetFile } from "@/lib/intake/read-file.ts";
import { type Layout, layoutSchema } from "@/lib/layout/layout.ts";
import type { KnownFleet } from "@/lib/schema/intake.ts";
import { joinChunks, noFleet } from "../intake/read-text.ts";

type LayoutInput = Parameters<typeof layoutSchema.parse>[0];

export const layoutOf = (columns: unknown, more: Record<string, unknown> = {}): Layout =>
  layoutSchema.parse({ layoutVersion: 1, headerRows: 1, columns, ...more } as LayoutInput);

async function* pieces(text: string | Uint8Array) {
  yield text;
}

/** Reads a file by a layout, as `borecast import` does. */
export async function readByLayout(text: string | Uint8Array, layout: Layout, known: KnownFleet = noFleet) {
  const chunks = [];
  for await (const chunk of readFleetFile({ source: pieces(text), file: "sheet.csv", known, layout }))
    chunks.push(chunk);
  return joinChunks(chunks);
}

/** Readings in short: unit, date, meter, measure, cylinder, value, and what else was told. */
export function readingsOf({ tests }: Pick<Awaited<ReturnType<typeof readByLayout>>, "tests">): string[] {
  return tests.flatMap((test) =>
    test.readings.map((reading) => {
      const more = [
        reading.supply === null ? "" : `supply ${reading.supply}`,
        reading.firstStroke === null ? "" : `first stroke ${reading.firstStroke}`,
        reading.heardAt.length === 0 ? "" : `heard ${reading.heardAt.join("+")}`,
        reading.order === null ? "" : `order ${reading.order}`,
        test.attempt === 1 ? "" : `attempt ${test.attempt}`,
        test.time === null ? "" : `time ${test.time}`,
        test.depot === null ? "" : `depot ${test.depot}`,
        test.engineModel === null ? "" : `model ${test.engineModel}`,
        test.engineSerial === null ? "" : `serial ${test.engineSerial}`,
        test.testedBy === null ? "" : `by ${test.testedBy}`,
        test.instrument === null ? "" : `with ${test.instrument}`,
        test.orificeMm === null ? "" : `orifice ${test.orificeMm}`,
        test.warm === null ? "" : `warm ${test.warm}`,
        test.throttleOpen === null ? "" : `throttle open ${test.throttleOpen}`,
        test.allPlugsOut === null ? "" : `plugs out ${test.allPlugsOut}`,
        test.tdcConfirmed === null ? "" : `tdc ${test.tdcConfirmed}`,
        test.gaugeZeroed === null ? "" : `zeroed ${test.gaugeZeroed}`,
        test.crankingRpm === null ? "" : `rpm ${test.crankingRpm}`,
        test.altitudeM === null ? "" : `altitude ${test.altitudeM}`,
        reading.remarks === null ? "" : `remarks ${reading.remarks}`,
      ].filter((part) => part !== "");
      const what = `${test.test} ${reading.cylinder}: ${reading.value} ${reading.valueUnit}`;
      return [`${test.unit} ${test.date} ${test.meter} ${test.meterUnit} ${what}`, ...more].join(", ");
    }),
  );
}
