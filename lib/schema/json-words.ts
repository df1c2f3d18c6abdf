import type { z } from "zod";

/** What is wrong with JSON that somebody gave, for a person. */

const kindWords: Record<string, string> = {
  number: "a number",
  int: "a whole number",
  string: "a text",
  boolean: "true or false",
  object: "a group of fields in { }",
  record: "a group of fields in { }",
  array: "a list in [ ]",
  tuple: "a list in [ ]",
};

/** One issue of zod as the end of a sentence whose subject is the field. The schema must have been asked to report the input. */
export function jsonIssueWords(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_type":
      return issue.input === undefined && issue.message.includes("undefined")
        ? "is missing"
        : `must be ${kindWords[issue.expected] ?? issue.expected}`;
    case "too_small":
      if (issue.origin === "string") return "must not be empty";
      return `must be ${issue.inclusive === true ? "at least" : "above"} ${issue.minimum}`;
    case "too_big":
      if (issue.origin === "string") return `must have at most ${issue.maximum} letters`;
      return `must be ${issue.inclusive === true ? "at most" : "below"} ${issue.maximum}`;
    case "invalid_value":
      return `must be ${issue.values.map(String).join(" or ")}`;
    case "invalid_union":
      // Of which kind an entry is stands in one of its fields; zod names what that may hold, though its types do not.
      return "options" in issue && Array.isArray(issue.options)
        ? `must be ${issue.options.map(String).join(" or ")}`
        : issue.message;
    case "unrecognized_keys":
      return `must not have ${issue.keys.map((key) => `"${key}"`).join(", ")}`;
    default:
      return issue.message;
  }
}

/** `neighbours[2][1]` → "neighbours 3, 2": people count from 1. */
export const jsonPathWords = (path: readonly PropertyKey[]): string =>
  path.reduce<string>((told, step) => {
    if (typeof step === "number") return `${told}${/\d$/.test(told) ? "," : ""} ${step + 1}`;
    return told === "" ? String(step) : `${told}.${String(step)}`;
  }, "");
