import { mkdirSync, mkdtempSync, readdirSync, rmSync, utimesSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { mostFiles, uploadLimits } from "@/app/_ui/import/limits.ts";
import { addFile, beginUpload, endUpload, mostUploads, takeFiles } from "@/app/api/_http/uploads.ts";

const limits = uploadLimits({ uploadLimitMb: 4 });
const { bytes: mostBytes, bytesTogether: mostBytesTogether } = limits;

let data = "";
beforeEach(() => {
  data = mkdtempSync(path.join(tmpdir(), "borecast-uploads-"));
  vi.stubEnv("BORECAST_DATA", data);
});
afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(data, { recursive: true, force: true });
});

const kept = () => readdirSync(path.join(data, "uploads"));
const bodyOf = (text: string) => new Blob([text]).stream();
const now = Date.UTC(2026, 5, 30);

async function begin(instant: number): Promise<string> {
  const upload = await beginUpload(instant);
  if (upload === null) throw new Error("too many uploads");
  return upload;
}

/** A body that never ends by itself, in pieces of one size; tells how many bytes were asked for. */
function endless(pieceBytes: number) {
  const piece = new Uint8Array(pieceBytes);
  let sent = 0;
  const body = new ReadableStream<Uint8Array>({
    pull(controller) {
      sent += piece.length;
      controller.enqueue(piece);
    },
  });
  return { body, sent: () => sent };
}

async function sourcesOf(upload: string) {
  const taken = await takeFiles(upload);
  if (typeof taken === "string") throw new Error(taken);
  return taken;
}

describe("an upload", () => {
  test("hands on its files under their names, then deletes them", async () => {
    const upload = await begin(now);
    expect(await addFile(upload, { name: "a.csv", body: bodyOf("unit\nV-1\n"), now, limits })).toBeNull();
    expect(await addFile(upload, { name: "a.csv", body: null, now, limits })).toBeNull();
    const { sources, done } = await sourcesOf(upload);
    expect(sources.map(({ name, bytes }) => [name, bytes])).toEqual([
      ["a.csv", 9],
      ["a.csv", 0],
    ]);
    expect(await takeFiles(upload)).toBe("unknown-upload");
    await done();
    expect(kept()).toEqual([]);
  });

  test("given up, it leaves nothing", async () => {
    const upload = await begin(now);
    await addFile(upload, { name: "a.csv", body: bodyOf("x"), now, limits });
    expect(await endUpload(upload)).toBe(true);
    expect(await endUpload(upload)).toBe(false);
    expect(kept()).toEqual([]);
    expect(await addFile(upload, { name: "b.csv", body: bodyOf("x"), now, limits })).toBe("unknown-upload");
  });

  test("a file that is too large is refused while it comes in, and not kept", async () => {
    const upload = await begin(now);
    const pieceBytes = 4_000_000;
    const { body, sent } = endless(pieceBytes);
    expect(await addFile(upload, { name: "big.csv", body, now, limits })).toBe("too-large");
    expect(sent()).toBeLessThan(mostBytes + 4 * pieceBytes);
    const { sources, done } = await sourcesOf(upload);
    expect(sources).toEqual([]);
    await done();
  });

  test("files that are too large together are refused as well, while the last one comes in", async () => {
    const upload = await begin(now);
    const whole = new Uint8Array(mostBytes / 4);
    const file = () => {
      let left = 4;
      return new ReadableStream<Uint8Array>({
        pull: (controller) => (left-- > 0 ? controller.enqueue(whole) : controller.close()),
      });
    };
    for (let n = 0; n < mostBytesTogether / mostBytes; n++) {
      expect(await addFile(upload, { name: `${n}.csv`, body: file(), now, limits })).toBeNull();
    }
    expect(await addFile(upload, { name: "more.csv", body: bodyOf("x"), now, limits })).toBe("too-large-together");
    expect(readdirSync(path.join(data, "uploads", upload)).length).toBe(mostBytesTogether / mostBytes);
    await endUpload(upload);
  });

  test("where too many are open, the one that lay idle for longest makes room", async () => {
    const opened: string[] = [];
    for (let n = 0; n < mostUploads; n++) opened.push(await begin(now + n));
    const one = await begin(now + mostUploads);
    expect(await endUpload(opened[0] ?? "")).toBe(false);
    expect(await endUpload(opened[1] ?? "")).toBe(true);
    for (const upload of [...opened.slice(2), one]) await endUpload(upload);
    expect(kept()).toEqual([]);
  });

  test("and where files come in for all of them, no more are begun", async () => {
    const coming: Promise<unknown>[] = [];
    const ends: (() => void)[] = [];
    const opened: string[] = [];
    for (let n = 0; n < mostUploads; n++) {
      const upload = await begin(now);
      opened.push(upload);
      const body = new ReadableStream<Uint8Array>({ start: (controller) => void ends.push(() => controller.close()) });
      coming.push(addFile(upload, { name: "slow.csv", body, now, limits }));
    }
    expect(await beginUpload(now)).toBeNull();
    for (const end of ends) end();
    await Promise.all(coming);
    for (const upload of opened) await endUpload(upload);
  });

  test("a file that breaks off is not kept", async () => {
    const upload = await begin(now);
    const body = new ReadableStream<Uint8Array>({
      start(controller) {
        controller.enqueue(new Uint8Array(3));
      },
      pull(controller) {
        controller.error(new Error("aborted"));
      },
    });
    expect(await addFile(upload, { name: "a.csv", body, now, limits })).toBe("broken-off");
    expect(readdirSync(path.join(data, "uploads", upload))).toEqual([]);
    await endUpload(upload);
  });

  test("takes no more than so many files", async () => {
    const upload = await begin(now);
    for (let n = 0; n < mostFiles; n++) await addFile(upload, { name: `${n}.csv`, body: null, now, limits });
    expect(await addFile(upload, { name: "more.csv", body: null, now, limits })).toBe("too-many-files");
    await endUpload(upload);
  });

  test("cannot be read while a file still comes in, nor come back once it was given up", async () => {
    const upload = await begin(now);
    let end: () => void = () => undefined;
    const body = new ReadableStream<Uint8Array>({
      start(controller) {
        end = () => controller.close();
      },
    });
    const adding = addFile(upload, { name: "slow.csv", body, now, limits });
    expect(await takeFiles(upload)).toBe("still-coming");
    await endUpload(upload);
    end();
    expect(await adding).toBe("unknown-upload");
    expect(kept()).toEqual([]);
  });

  test("left alone for more than an hour it is swept, also that of an ended process; a younger one stays", async () => {
    const hour = 3_600_000;
    const old = await begin(now - 2 * hour);
    mkdirSync(path.join(data, "uploads", "killed"));
    utimesSync(path.join(data, "uploads", "killed"), (now - 2 * hour) / 1000, (now - 2 * hour) / 1000);
    const young = await begin(now - hour / 2);
    const next = await begin(now);
    expect(kept().sort()).toEqual([young, next].sort());
    expect(await endUpload(old)).toBe(false);
    await endUpload(young);
    await endUpload(next);
  });
});
