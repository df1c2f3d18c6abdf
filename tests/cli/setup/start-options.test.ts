import { expect, test } from "vitest";
import { addressToOpen, isPrivate } from "../../../cli/setup/address.mjs";
import { readStartOptions } from "../../../cli/setup/start-options.mjs";

test("without a choice it is port 3000, for this machine alone, with the demo fleet", () => {
  expect(readStartOptions([], {})).toMatchObject({ port: 3000, host: "127.0.0.1", empty: false, dev: false });
});

test("the command line comes before the environment", () => {
  const env = { PORT: "4000", BORECAST_HOST: "0.0.0.0" };
  expect(readStartOptions([], env)).toMatchObject({ port: 4000, host: "0.0.0.0" });
  expect(readStartOptions(["--port", "5000", "--host", "::1", "--empty"], env)).toMatchObject({
    port: 5000,
    host: "::1",
    empty: true,
  });
});

test("HOST, which shells and containers set to the machine's name, opens the server to nobody", () => {
  expect(readStartOptions([], { HOST: "workshop-7" }).host).toBe("127.0.0.1");
});

test.each(["0", "65536", "-1", "3000x", "3e3", ""])("%j is not a port", (text) => {
  expect(() => readStartOptions([`--port=${text}`], {})).toThrow(`"${text}" is not a port`);
});

test("a word without an option is refused", () => {
  expect(() => readStartOptions(["empty"], {})).toThrow("'empty'");
});

test.each([
  ["127.0.0.1", "http://localhost:3000", true],
  ["::1", "http://localhost:3000", true],
  ["localhost", "http://localhost:3000", true],
  ["0.0.0.0", "http://localhost:3000", false],
  ["192.0.2.7", "http://192.0.2.7:3000", false],
  ["2001:db8::7", "http://[2001:db8::7]:3000", false],
])("at %s the address to open is %s, for this machine alone: %s", (host, address, alone) => {
  expect(addressToOpen({ host, port: 3000 })).toBe(address);
  expect(isPrivate(host)).toBe(alone);
});
