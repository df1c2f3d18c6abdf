import { renderToStaticMarkup } from "react-dom/server";
import { expect, it } from "vitest";
import { rightWords } from "@/app/_ui/causes/call-words.ts";
import { CallsMatrix } from "@/app/_ui/causes/calls-sheets.tsx";
import type { Call, CalledClass, FoundClass } from "@/lib/cause/calls.ts";
import { isRightCall } from "@/lib/cause/calls.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const call = (called: CalledClass, found: FoundClass): Call => ({
  case: {
    engine: "E-1",
    unit: "V-1",
    engineModel: "petrol-4-a",
    meterUnit: "km",
    date: "2026-01-02",
    cylinder: 2,
    scope: "complete",
    found: found === "sound" ? [] : ["exhaust-valve"],
    tested: true,
    seen: [],
    asked: [],
  },
  called: { class: called, probability: 0.8, cause: "exhaust-valve" },
  issued: null,
  found,
  right: isRightCall(called, found),
});

it("cells in bold add up to the calls that were right, those of both classes among them", () => {
  const calls = [
    call("top-end", "top-end"),
    call("top-end", "both"),
    call("bottom-end", "both"),
    call("bottom-end", "bottom-end"),
    call("top-end", "bottom-end"),
    call("test-set-up", "both"),
  ];
  const html = renderToStaticMarkup(<CallsMatrix title="Petrol" calls={calls} f={f} />);
  const bold = [...html.matchAll(/<strong>(\d+)<\/strong>/g)].map(([, count]) => Number(count));
  expect(bold.reduce((a, b) => a + b, 0)).toBe(4);
  expect(rightWords(f, calls)).toBe("4 of 6 right");
});
