import { expect, it } from "vitest";
import { askedAt } from "@/app/api/_http/asked-at.ts";

const asked = (headers: Record<string, string>) =>
  askedAt({ url: "http://localhost:3000/plan/calendar.ics", headers: new Headers(headers) });

it("a server is reached where it was asked, by the name that whoever asked gave it", () => {
  expect(asked({ host: "workshop:3000" })).toBe("http://workshop:3000");
  expect(asked({ host: "10.0.0.2:3000", "x-forwarded-host": "fleet.example", "x-forwarded-proto": "https,http" })).toBe(
    "https://fleet.example",
  );
});

it("a server of which no usable name is given is reached at its own", () => {
  expect(asked({})).toBe("http://localhost:3000");
  expect(asked({ host: "a b" })).toBe("http://localhost:3000");
  expect(asked({ host: "workshop", "x-forwarded-proto": "javascript" })).toBe("http://localhost:3000");
});
