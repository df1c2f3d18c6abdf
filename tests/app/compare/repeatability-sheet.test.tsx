import { MantineProvider } from "@mantine/core";
import { renderToStaticMarkup } from "react-dom/server";
import { expect, it } from "vitest";
import { RepeatabilitySheet } from "@/app/_ui/compare/repeatability-sheet.tsx";
import { fleetRepeatability } from "@/lib/condition/fleet-repeatability.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

it("begins with a plain sentence and the words used, then has a table for each kind of test", () => {
  const of = {
    "leak-down": fleetRepeatability("leak-down", []),
    "compression-dry": fleetRepeatability("compression-dry", []),
  };
  const html = renderToStaticMarkup(
    <MantineProvider>
      <RepeatabilitySheet f={formatsOf(plainPreferences)} of={of} />
    </MantineProvider>,
  );
  const at = ["Two tests of a sound engine", "degrees of freedom", "<caption>Leak-down", "<caption>Compression"].map(
    (part) => html.indexOf(part),
  );
  expect(at.every((place) => place >= 0)).toBe(true);
  expect(at).toEqual(at.toSorted((a, b) => a - b));
  expect(html.match(/no test has been repeated/g)).toHaveLength(2);
});
