import { NextRequest } from "next/server";
import { describe, expect, test, vi } from "vitest";
import { z } from "zod";
import type { JobView } from "@/app/_jobs/job-registry.ts";
import { progressOf } from "@/app/_jobs/progress.ts";
import { answered, jsonBody, queryFields, refusal } from "@/app/api/_http/answers.ts";
import { calendarFile } from "@/app/api/_http/calendar.ts";
import { csvFile } from "@/app/api/_http/csv.ts";
import { isAskedByOwnName, isFromHere } from "@/app/api/_http/from-here.ts";
import { jobEvents } from "@/app/api/_http/job-events.ts";
import { textStream } from "@/app/api/_http/text-stream.ts";
import { writing } from "@/app/api/_http/writing.ts";
import { notOurs } from "@/db/store-error.ts";
import { proxy } from "@/proxy.ts";

describe("where a write comes from", () => {
  const from = (headers: Record<string, string>) => isFromHere(new Headers({ host: "localhost:3000", ...headers }));
  test("a page of this server, or a program", () => {
    expect(from({ origin: "http://localhost:3000" })).toBe(true);
    expect(from({})).toBe(true);
    expect(from({ "sec-fetch-site": "same-origin" })).toBe(true);
  });
  test("another host, another port, no origin to name", () => {
    expect(from({ origin: "http://elsewhere.example" })).toBe(false);
    expect(from({ origin: "http://localhost:3001" })).toBe(false);
    expect(from({ origin: "null" })).toBe(false);
    expect(from({ "sec-fetch-site": "cross-site" })).toBe(false);
  });
  test("a server in front names the host that was asked for", () =>
    expect(from({ origin: "https://fleet.example", "x-forwarded-host": "fleet.example" })).toBe(true));
});

describe("the host that is asked for", () => {
  const own = ["localhost", "localhost:3000", "LOCALHOST:80", "127.0.0.1:3000", "127.0.1.1", "[::1]:3000"];
  const others = ["fleet.example:3000", "localhost.example", "127.0.0.1.example", "192.0.2.7:3000", "[::2]", "", "a b"];
  test.each(own)("%s is this machine", (host) => expect(isAskedByOwnName(host, undefined)).toBe(true));
  test.each([...others, null])("%s is not", (host) => expect(isAskedByOwnName(host, "this-machine")).toBe(false));
  test("served to the network, any name may lead here", () =>
    expect(isAskedByOwnName("fleet.example", "network")).toBe(true));

  const asked = (path: string, host: string) =>
    proxy(new NextRequest(`http://127.0.0.1:3000${path}`, { headers: { host } }));
  test("a page or a route is told to nobody who asks for another", async () => {
    const page = await asked("/units/B-1", "rebound.example:3000");
    expect([page.status, await page.text()]).toEqual([403, expect.stringMatching(/only at localhost.*\n$/)]);
    const route = await asked("/api/assessment", "rebound.example:3000");
    expect([route.status, await route.json()]).toEqual([403, { error: expect.stringContaining("only at localhost") }]);
    expect((await asked("/", "localhost:3000")).headers.get("x-middleware-next")).toBe("1");
  });
  test("a page that is asked for is noted as a visit; what it is made of, and what programs ask for, is not", async () => {
    const noted = async (path: string, headers: Record<string, string> = {}, method = "GET") =>
      (
        await proxy(
          new NextRequest(`http://localhost:3000${path}`, { method, headers: { host: "localhost:3000", ...headers } }),
        )
      ).headers.get("set-cookie");
    expect(await noted("/depots/V.1")).toMatch(/^borecast-visits=\.\d+; Path=\/;.*HttpOnly; SameSite=lax/i);
    expect(await noted("/", { "sec-fetch-dest": "document" })).not.toBeNull();
    expect(await noted("/?band=plan", { "sec-fetch-dest": "empty" })).not.toBeNull();
    expect(await noted("/", { cookie: "borecast-visits=.1000" })).toMatch(/^borecast-visits=1000\.\d+;/);
    for (const path of ["/_next/static/a.js", "/api/imports", "/samples/results.csv", "/icon.svg", "/favicon.ico"]) {
      expect(await noted(path)).toBeNull();
    }
    expect(await noted("/", { "sec-fetch-dest": "image" })).toBeNull();
    expect(await noted("/", { "sec-purpose": "prefetch;prerender" })).toBeNull();
    expect(await noted("/", { purpose: "prefetch" })).toBeNull();
    expect(await noted("/", {}, "POST")).toBeNull();
  });
  test("an address that cannot be read is answered by the page for what is not there", async () => {
    for (const path of ["/units/%E0%A4", "/units/V-1/%E0%A4", "/%"]) {
      const answer = await asked(path, "localhost:3000");
      expect(new URL(answer.headers.get("x-middleware-rewrite") ?? "").pathname, path).toBe("/unknown");
    }
  });
  test("an upload, which goes by the proxy, is refused as well", async () => {
    const request = new Request("http://127.0.0.1:3000/api/uploads/x?by=A", {
      method: "POST",
      headers: { host: "rebound.example", origin: "http://rebound.example" },
    });
    const work = vi.fn();
    expect((await writing(request, work)).status).toBe(403);
    expect(work).not.toHaveBeenCalled();
  });
});

describe("a calendar as a file", () => {
  test("is named after its depot", () => {
    expect(calendarFile("BEGIN:VCALENDAR", "High/col").headers.get("content-disposition")).toBe(
      "inline; filename=\"col.ics\"; filename*=UTF-8''col.ics",
    );
    expect(calendarFile("BEGIN:VCALENDAR", "Highcol").headers.get("content-disposition")).toContain(
      'inline; filename="Highcol.ics"',
    );
  });
});

describe("a table as a file", () => {
  test("is marked as UTF-8 and named by what a header can take, with the exact name beside it", async () => {
    const file = csvFile('tests-Ü 7/"b"', ["unit", "n"], [["=1+1", 2]]);
    expect(file.headers.get("content-disposition")).toBe(
      "attachment; filename=\"tests--7-b-.csv\"; filename*=UTF-8''tests-%C3%9C%207-%22b%22.csv",
    );
    const bytes = new Uint8Array(await file.arrayBuffer());
    expect([...bytes.slice(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
    expect(new TextDecoder().decode(bytes)).toBe("unit,n\r\n'=1+1,2\r\n");
  });

  test("is sent piece by piece where its rows come so", async () => {
    async function* pieces() {
      yield [["a", 1] as const];
      yield [["b", null] as const, ["c", 3] as const];
    }
    const file = csvFile("few", ["unit", "n"], pieces());
    expect(file.headers.get("content-disposition")).toBe('attachment; filename="few.csv"');
    expect(await file.text()).toBe("unit,n\r\na,1\r\nb,\r\nc,3\r\n");
  });
});

describe("answers", () => {
  const post = (body: string) => new Request("http://h/?limit=5&x=1", { method: "POST", body });
  const schema = z.object({ takeChanges: z.boolean().default(false) });
  test("an empty body counts as no fields", async () =>
    expect(await jsonBody(post(""), schema)).toEqual({ ok: true, value: { takeChanges: false } }));
  test("what is not JSON, or not of the shape, is a 400 with a sentence", async () => {
    for (const body of ["{", '{"takeChanges":3}']) {
      const parsed = await jsonBody(post(body), schema);
      if (parsed.ok) throw new Error("taken");
      expect(parsed.response.status).toBe(400);
      expect((await parsed.response.json()).error).toMatch(/^The (body|request) .*/);
    }
  });
  test("a body that no honest request has is a 413, and is not read to its end", async () => {
    let sent = 0;
    const body = new ReadableStream<Uint8Array>({
      pull(controller) {
        sent += 10_000;
        controller.enqueue(new Uint8Array(10_000).fill(32));
      },
    });
    const request = new Request("http://h/", { method: "POST", body, duplex: "half" } as RequestInit);
    const parsed = await jsonBody(request, schema);
    expect(parsed.ok ? null : parsed.response.status).toBe(413);
    expect(sent).toBeLessThan(200_000);
  });
  test("fields of the address", () =>
    expect(queryFields(post(""), z.object({ limit: z.coerce.number() }))).toEqual({ ok: true, value: { limit: 5 } }));
  test("a store that cannot be used says so, anything else says nothing of itself", async () => {
    const log = vi.spyOn(console, "error").mockImplementation(() => undefined);
    const failing = (error: unknown) => answered(() => Promise.reject(error));
    const store = await failing(notOurs("/data/x.db"));
    expect([store.status, (await store.json()).error]).toEqual([503, notOurs("/data/x.db").message]);
    const other = await failing(new Error("secret stack"));
    expect(other.status).toBe(500);
    expect((await other.json()).error).not.toContain("secret");
    expect(log).toHaveBeenCalledTimes(1);
    log.mockRestore();
  });
  test("a refusal is never cached", () => expect(refusal(404, "No.").headers.get("cache-control")).toBe("no-store"));
});

const view = (news: Partial<JobView>): JobView => ({
  id: "j",
  kind: "stage",
  state: "running",
  progress: null,
  result: null,
  error: null,
  ...news,
});

/** The views that a reader gets of these, told in one go at these instants. */
async function heard(told: readonly (readonly [number, JobView])[]): Promise<JobView[]> {
  let now = 0;
  const body = jobEvents(
    (listener) => {
      for (const [at, one] of told) {
        now = at;
        listener(one);
      }
      return () => undefined;
    },
    () => now,
  );
  const text = await new Response(body).text();
  return text
    .split("\n\n")
    .filter(Boolean)
    .map((event) => JSON.parse(event.replace(/^data: /, "")));
}

describe("a job's events", () => {
  const reading = (rows: number) => view({ progress: progressOf("reading", { rows }) });
  test("come at most every tenth of a second, but a new phase and the end always", async () => {
    const views = await heard([
      [0, reading(1)],
      [50, reading(2)],
      [120, reading(3)],
      [130, view({ progress: progressOf("comparing") })],
      [131, view({ state: "done", result: { import: "i" } })],
    ]);
    expect(views.map((one) => one.progress?.rows ?? null)).toEqual([1, 3, 0, null]);
    expect(views.at(-1)).toMatchObject({ state: "done", result: { import: "i" } });
  });
  test("a job that is not known ends at once", async () => {
    expect(
      await new Response(
        jobEvents(
          () => null,
          () => 0,
        ),
      ).text(),
    ).toBe("");
  });
  test("a reader that goes ends the subscription", async () => {
    const unsubscribe = vi.fn();
    await jobEvents(
      () => unsubscribe,
      () => 0,
    ).cancel();
    expect(unsubscribe).toHaveBeenCalledOnce();
  });
});

test("text is made as it is read, and no further when the reader goes", async () => {
  let made = 0;
  async function* pieces() {
    for (;;) yield String(made++);
  }
  const reader = textStream(pieces()).getReader();
  await reader.read();
  await reader.cancel();
  expect(made).toBeLessThan(5);
});
