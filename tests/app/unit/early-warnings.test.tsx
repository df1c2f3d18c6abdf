import { renderToStaticMarkup } from "react-dom/server";
import { expect, it } from "vitest";
import { EarlyWarnings } from "@/app/_ui/unit/early-warnings.tsx";
import type { UnitReport, WarningLine } from "@/lib/schema/report.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";
import { diesel } from "./fixture.ts";

const f = formatsOf(plainPreferences);
const warning: WarningLine = {
  measure: "leak-down",
  cylinder: 3,
  date: "2026-05-10",
  meter: 148_600,
  x: 148_600,
  amount: 4.02,
  amountSince: 5.1,
  sd: 1.34,
  statistic: 7.2,
  limit: 5.1,
  heardAt: ["exhaust"],
  falseAlarms: 1.5,
};
const drawn = (earlyWarnings: UnitReport["earlyWarnings"]) =>
  renderToStaticMarkup(<EarlyWarnings report={{ ...diesel, earlyWarnings }} f={f} />).replaceAll("\u00a0", " ");

it("has a row for each cylinder that left its family, with its evidence and the limit apart", () => {
  const cells = [...drawn([warning]).matchAll(/<td[^>]*>(.*?)<\/td>/g)].map(([, cell = ""]) =>
    cell.replace(/<[^>]+>/g, ""),
  );
  expect(cells).toEqual([
    "10 May 2026 148,600 km",
    "4.0 points",
    "5.1 points",
    "1.3 points",
    "7.2 limit 5.1",
    "exhaust",
  ]);
});

it("draws nothing where none did", () => expect(drawn([])).toBe(""));
