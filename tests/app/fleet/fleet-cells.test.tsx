import { renderToStaticMarkup } from "react-dom/server";
import { expect, it } from "vitest";
import { fleetCells } from "@/app/_ui/fleet/fleet-cells.tsx";
import type { FleetShown } from "@/app/_ui/fleet/shown.ts";
import { timeSpan } from "@/app/_ui/time-span.ts";
import { WindowGlyph } from "@/app/_ui/window-glyph.tsx";
import type { FleetRow } from "@/lib/schema/report.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";
import { row } from "./made-up-row.ts";

const shown = { horizonEnd: "2031-08-31", asOf: "2026-08-31", f: formatsOf(plainPreferences) } as FleetShown;
const topEnd = { status: "projected", p10: "2026-11-01", p50: "2028-01-05", p90: null } as const;
const bottomEnd = { status: "projected", p10: "2029-11-01", p50: null, p90: null } as const;
const soldOn = "2026-12-31";

/** What the cell "Repair likely" says, for eyes and for a screen reader. */
const likely = (windows: Partial<FleetRow>) => {
  const html = renderToStaticMarkup(fleetCells.likely(row("V-1", windows), shown)).replaceAll("\u00a0", " ");
  const words = (of: string) => of.replace(/<\/div>/g, "; ").replace(/<[^>]+>/g, "");
  return { seen: words(html.replace(/<span class="visually-hidden">.*?<\/span>/g, "")), heard: words(html) };
};

it("says of a window alone that the unit is sold before, and when", () => {
  expect(likely({ topEnd: { ...topEnd, soldOn } }).seen).toBe("top Jan 2028; sold before, 31 Dec 2026; ");
  expect(likely({ topEnd }).seen).toBe("top Jan 2028; ");
});

it("says it with each of two windows, in place of a date beyond the horizon", () => {
  const both = likely({ topEnd: { ...topEnd, soldOn }, bottomEnd: { ...bottomEnd, soldOn } });
  expect(both.seen).toBe("top Jan 2028, sold; bottom sold; ");
  expect(both.heard).toBe(
    "top Jan 2028, sold before, on 31 Dec 2026; bottom after Aug 2031, sold before, on 31 Dec 2026; ",
  );
  expect(likely({ topEnd, bottomEnd: { ...bottomEnd, soldOn } }).seen).toBe("top Jan 2028; bottom sold; ");
});

it("marks the day in the drawing, with its word on the side that has room, and not beyond the axis", () => {
  const drawn = (on: string) =>
    renderToStaticMarkup(
      <WindowGlyph
        topEnd={{ ...topEnd, soldOn: on }}
        bottomEnd={{ status: "not-foreseen", p10: null, p50: null, p90: null }}
        span={timeSpan("2026-08-31", 3)}
        linesId="lines"
      />,
    );
  expect(drawn("2026-10-01")).toContain("#window-sold-word");
  expect(drawn("2027-12-31")).toMatch(/#window-sold"/);
  expect(drawn("2030-12-31")).not.toContain("#window-sold");
});
