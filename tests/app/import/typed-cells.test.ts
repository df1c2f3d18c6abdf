import { expect, it } from "vitest";
import type { WrongCell } from "@/app/_ui/import/import-words.ts";
import { asked, type TypedCells } from "@/app/_ui/import/typed-cells.ts";

const cell = (issue: number, value: string): WrongCell => ({ issue, line: issue, column: "value", value });
const typed = (...all: readonly (readonly [WrongCell, string])[]): TypedCells =>
  new Map(all.map(([of, value]) => [of.issue, { cell: of, value }]));

it("asks for all that was typed in any field, wherever was pressed", () => {
  const [one, two, three] = [cell(1, "1o"), cell(2, "x"), cell(3, "1l")];
  expect(asked(two, typed([one, "10"], [two, "12"], [three, "11"]))).toEqual({
    issue: 2,
    value: "12",
    also: [
      { issue: 1, value: "10" },
      { issue: 3, value: "11" },
    ],
  });
});

it("leaves alone what stands as the file has it", () => {
  expect(asked(cell(2, "x"), typed([cell(1, "1o"), "1o"]))).toEqual({ issue: 2, value: "x", also: [] });
});
