import { expect, it } from "vitest";
import { cylinderWords, lostWords } from "@/app/_ui/test-sheet/test-words.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { readPreferences } from "@/lib/viewing/preferences.ts";
import { leakDownFacts, leakDownTerms } from "../../lib/test-entry/made-up.ts";

const f = formatsOf(readPreferences(undefined));
const plain = (words: string | null) => words?.replace(/\u00a0/g, " ");
const made = leakDownFacts([7.5], { limit: 25 });
const of = { ...made, tester: { ...made.tester!, supplyKpa: 551.58 } };
const held = { ...leakDownTerms, valueUnit: "psi", supply: 80 } as const;

it("the last readings and the limit of a cylinder stand as the gauge shows them", () => {
  const [cylinder] = of.byCylinder;
  expect(plain(cylinderWords(cylinder!, { terms: leakDownTerms, of }, f))).toBe("Last 8 % on 3 May 2026. Limit 25 %.");
  expect(plain(cylinderWords(cylinder!, { terms: held, of }, f))).toBe(
    "Last 74 of 80 (8 %) on 3 May 2026. Limit 60 of 80 (25 %).",
  );
});

it("a held pressure tells what is lost as it is typed", () => {
  expect(plain(lostWords(74, held, f))).toBe("of 80 psi: 7.5 % lost");
  expect(plain(lostWords(null, held, f))).toBe("of 80 psi");
  expect(plain(lostWords(90, held, f))).toBe("of 80 psi");
  expect(lostWords(74, { ...held, supply: null }, f)).toContain("no supply");
  expect(lostWords(8, leakDownTerms, f)).toBeNull();
});
