import { describe, expect, it } from "vitest";
import { choiceHref, chooseFrom } from "@/app/_ui/unit/choice.ts";
import { diesel, neverTested, v8 } from "./fixture.ts";

describe("chooseFrom", () => {
  it("takes the weakest place when the address asks for none", () => {
    expect(chooseFrom(diesel, {})).toMatchObject({ measure: "leak-down", cylinder: 3, values: "referred" });
    expect(chooseFrom(v8, {})).toMatchObject({ measure: "compression-dry", cylinder: 6, values: "referred" });
  });

  it("takes what the address asks for", () => {
    const asked = { measure: "compression-dry", cylinder: "2" };
    expect(chooseFrom(diesel, asked)).toMatchObject({ measure: "compression-dry", cylinder: 2, values: "referred" });
  });

  it("fills the half that is left open with the weakest of the rest", () => {
    expect(chooseFrom(diesel, { measure: "compression-dry" })).toMatchObject({
      measure: "compression-dry",
      cylinder: 3,
      values: "referred",
    });
    expect(chooseFrom(diesel, { cylinder: "2" })).toMatchObject({
      measure: "leak-down",
      cylinder: 2,
      values: "referred",
    });
  });

  it("passes over what the engine does not have", () => {
    const asked = { measure: "leak-down", cylinder: "17" };
    expect(chooseFrom(v8, asked)).toMatchObject({ measure: "compression-dry", cylinder: 6, values: "referred" });
    expect(chooseFrom(diesel, { measure: ["leak-down", "x"], cylinder: "two" })).toMatchObject({
      measure: "leak-down",
      cylinder: 3,
      values: "referred",
    });
  });

  it("shows referred values unless raw ones are asked for by name", () => {
    expect(chooseFrom(diesel, { values: "raw" })?.values).toBe("raw");
    expect(chooseFrom(diesel, { values: ["raw", "raw"] })?.values).toBe("referred");
    expect(chooseFrom(diesel, { values: "rough" })?.values).toBe("referred");
  });

  it("shows the latest tests unless all are asked for", () => {
    expect(chooseFrom(diesel, { tests: "all" })?.allTests).toBe(true);
    expect(chooseFrom(diesel, { tests: "some" })?.allTests).toBe(false);
  });

  it("is null for a unit that was never tested", () => {
    expect(chooseFrom(neverTested, { cylinder: "1" })).toBeNull();
  });
});

describe("choiceHref", () => {
  it("writes the address that chooseFrom reads, with the unit escaped", () => {
    const choice = { measure: "leak-down", cylinder: 3, values: "referred", allTests: false } as const;
    expect(choiceHref("L-203", { ...choice, allTests: true })).toBe(
      "/units/L-203?measure=leak-down&cylinder=3&tests=all",
    );
    expect(choiceHref("L 2/03", choice)).toBe("/units/L%202%2F03?measure=leak-down&cylinder=3");
    expect(choiceHref("L-203", { ...choice, values: "raw" })).toBe(
      "/units/L-203?measure=leak-down&cylinder=3&values=raw",
    );
  });
});
