import { renderToStaticMarkup } from "react-dom/server";
import { expect, it } from "vitest";
import { BarsSheet } from "@/app/_ui/budget/bars-sheet.tsx";
import { rareMark, rareNote } from "@/app/_ui/budget/rare-money.ts";
import type { Bar } from "@/app/_ui/budget/year-told.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const view = { year: null, span: "month", by: "depot", frozen: null } as const;
const bar = (name: string, spent: number, expected: number, p80: number): Bar => ({
  ...{ name, from: `${name}-01`, spent },
  whole: { expected: spent + expected, p50: spent, p80: spent + p80, p95: spent + 900_000 },
});
const shown = (...bars: readonly Bar[]) =>
  renderToStaticMarkup(<BarsSheet f={f} bars={bars} view={view} currency="XXX" />);

it("says of money that is expected beyond a P80 of none that it is rare", () => {
  const html = shown(bar("2026-09", 0, 199_000, 0), bar("2026-10", 5_000, 199_000, 0), bar("2026-11", 0, 199_000, 1));
  expect(html.split(rareMark)).toHaveLength(3);
  expect(html).toContain(rareNote);
});

it("says nothing where none is expected, or P80 holds some", () => {
  expect(shown(bar("2026-09", 7_000, 0, 0), bar("2026-10", 0, 500, 900))).not.toContain("1 in 5");
});
