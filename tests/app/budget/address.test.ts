import { expect, it } from "vitest";
import { budgetAddress, readBudgetAddress, understoodOfBudget } from "@/app/_ui/budget/address.ts";
import type { AddressParts } from "@/app/_ui/compare/address.ts";
import { notUnderstoodWords } from "@/app/_ui/not-understood.tsx";

const usual = { year: null, span: "month", by: "depot", frozen: null } as const;
const says = (parts: AddressParts) =>
  notUnderstoodWords(
    parts,
    understoodOfBudget([{ name: "2026/27" }], [{ id: 7 }]),
    "the budget is shown as without it",
  );

it("reads back what it writes", () => {
  const view = { year: "2027/28", span: "quarter", by: "class", frozen: 7 } as const;
  expect(readBudgetAddress(Object.fromEntries(new URL(`http://x${budgetAddress(view)}`).searchParams))).toEqual(view);
  expect(budgetAddress(usual)).toBe("/budget");
});

it("says in one sentence what of an address is not understood, and shows the budget as without it", () => {
  expect(says({ year: "2026/27", span: "year", by: "model", frozen: "7" })).toBeNull();
  expect(says({ span: "week" })).toBe(
    "Of this page’s address “span=week” is not understood: the budget is shown as without it.",
  );
  expect(says({ year: "1999", by: "colour", frozen: "8", x: "1" })).toContain(
    "“year=1999”, “by=colour”, “frozen=8” and “x=1” are not understood",
  );
  expect(readBudgetAddress({ span: "week", by: "colour", frozen: "eight" })).toEqual(usual);
  expect(readBudgetAddress({ span: ["year", "quarter"] })).toEqual(usual);
  expect(readBudgetAddress({ span: ["year"] }).span).toBe("year");
});
