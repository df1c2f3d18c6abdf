import { expect, it, onTestFinished, vi } from "vitest";
import { watchElsewhere } from "@/app/_ui/test-sheet/open-elsewhere.client.ts";

const times = { answerWithinMs: 30, againAfterMs: 150 };

/** A page that has a sheet open, and what it knows of others. */
function page(id: string) {
  const told: boolean[] = [];
  let end: (() => void) | null = watchElsewhere(id, (isOpen) => told.push(isOpen), times);
  const leave = () => {
    end?.();
    end = null;
  };
  onTestFinished(leave);
  return { knows: () => told.at(-1), leave };
}

it("two pages of one sheet know of each other until one leaves; one of another sheet is none of theirs", async () => {
  const first = page("a");
  await vi.waitFor(() => expect(first.knows()).toBe(false));
  const other = page("b");
  const second = page("a");
  await vi.waitFor(() => expect([first.knows(), second.knows(), other.knows()]).toEqual([true, true, false]));
  second.leave();
  await vi.waitFor(() => expect(first.knows()).toBe(false));
});

it("a page that ended without a word is missed at the next asking", async () => {
  const first = page("c");
  const ended = new BroadcastChannel("borecast-test-sheets");
  ended.postMessage({ asks: "c" });
  await vi.waitFor(() => expect(first.knows()).toBe(true));
  ended.close();
  await vi.waitFor(() => expect(first.knows()).toBe(false));
});
