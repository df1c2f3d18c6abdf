import type { TestLine } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { decimalsOf } from "./set-up-words.ts";

type Entered = TestLine["entered"][number];

/** As it was entered, with the digits that it had. */
const enteredFigure = ({ value }: Entered, f: Formats): string => f.number(value, decimalsOf(value));

/** "8 · 10 · 13 · 7" when every cylinder was read, else each with its number: "cyl 3: 13". */
export function readings(test: Pick<TestLine, "entered">, cylinders: number, write: (e: Entered) => string): string {
  const inOrder = [...test.entered].sort((a, b) => a.cylinder - b.cylinder);
  const all = inOrder.length === cylinders && inOrder.every((e, i) => e.cylinder === i + 1);
  return all ? inOrder.map(write).join(" · ") : inOrder.map((e) => `cyl ${e.cylinder}: ${write(e)}`).join(" · ");
}

/** The readings of a test as the gauge showed them, with their unit and, where it matters, the supply. */
export function enteredWords(test: Pick<TestLine, "measure" | "entered">, cylinders: number, f: Formats): string {
  const [first] = test.entered;
  if (first === undefined) return "no reading";
  const oneUnit = test.entered.every((e) => e.valueUnit === first.valueUnit);
  const supplied = test.entered.every((e) => e.supply === first.supply) ? first.supply : null;
  const supply =
    test.measure === "leak-down" && supplied !== null
      ? first.valueUnit === "%"
        ? ` at ${f.number(supplied, decimalsOf(supplied))} kPa`
        : ` held of ${f.number(supplied, decimalsOf(supplied))}`
      : "";
  if (!oneUnit) return readings(test, cylinders, (e) => `${enteredFigure(e, f)} ${e.valueUnit}`);
  return `${readings(test, cylinders, (e) => enteredFigure(e, f))} ${first.valueUnit}${supply}`;
}
