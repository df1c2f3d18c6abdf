import { expect, test } from "vitest";
import { isPhone } from "../../../app/_ui/fleet/phone.ts";

test.each([
  [{ "sec-ch-ua-mobile": "?1" }, true],
  [{ "sec-ch-ua-mobile": "?0", "user-agent": "A browser (Desk) Other/2" }, false],
  [{ "user-agent": "A browser (Phone) Mobile/1 Other/2" }, true],
  [{ "user-agent": "A browser (Desk) Other/2" }, false],
  [{}, false],
])("%o", (headers, expected) => expect(isPhone(new Headers(headers as Record<string, string>))).toBe(expected));
