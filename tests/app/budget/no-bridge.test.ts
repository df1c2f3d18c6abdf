import { describe, expect, it } from "vitest";
import { bridgeOf } from "@/app/_jobs/bridge-of.ts";
import { noBridgeWords } from "@/app/_ui/budget/budget-words.ts";
import { plainRefusal } from "@/app/api/_http/answers.ts";
import type { BudgetRow } from "@/db/budgets.ts";
import type { Store } from "@/db/store.ts";

const row = (id: number, currency: string) => ({ id, name: "Board", document: { currency } }) as BudgetRow;

describe("a bridge between budgets in two currencies", () => {
  it("is none, and no job is begun to find that out", () => {
    const ends = { was: row(1, "EUR"), now: row(2, "CHF"), year: "2026" };
    expect(bridgeOf({} as Store, ends)).toEqual({ bridge: "other-currency" });
  });

  it("is said to be none with both currencies and what to do", () => {
    const ends = { name: "Board", was: "EUR", now: "XXX" };
    expect(noBridgeWords("other-currency", ends)).toBe(
      "No bridge can be drawn: the frozen budget “Board” is in EUR and today’s in a currency that is not named, and no rate between the two is known. Freeze today’s budget to have one that later ones can be told against.",
    );
  });

  it("is refused as a file with that sentence as plain text", async () => {
    const refused = plainRefusal(404, "No bridge can be drawn.");
    expect([refused.status, refused.headers.get("content-type"), await refused.text()]).toEqual([
      404,
      "text/plain; charset=utf-8",
      "No bridge can be drawn.\n",
    ]);
  });
});
