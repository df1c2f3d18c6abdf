import { mkdirSync } from "node:fs";
import path from "node:path";
import { emptyPage, pages } from "../pages.ts";
import { type FirstVisit, firstVisit } from "./first-visit.ts";
import { fillStore } from "./fleet-of.ts";
import { mediansOf } from "./sampling.ts";
import { type Server, servedStore } from "./server.ts";

export interface PageFigures extends FirstVisit {
  readonly address: string;
  readonly units: number;
  readonly firstSeconds: number;
  readonly wholeSeconds: number;
  /** Beside the empty page of the same server in the same rounds. */
  readonly timesEmptyFirst: number;
  readonly timesEmptyWhole: number;
}

const warmUps = 5;

/**
 * Every page of the app at several sizes of fleet, each fleet served by a server of its own. The empty page is an
 * address that nothing is at: the same frame, read from the same store, round one sentence.
 */
export async function measurePages(folder: string, sizes: readonly number[], rounds: number): Promise<PageFigures[]> {
  const figures: PageFigures[] = [];
  for (const units of sizes) {
    const data = path.join(folder, `fleet-${units}`);
    mkdirSync(data);
    await fillStore(folder, path.join(data, "borecast.db"), units);
    const server = await servedStore(data);
    try {
      figures.push(...(await measureServer(server, units, rounds)));
    } finally {
      await server.stop();
    }
  }
  return figures;
}

async function measureServer(server: Server, units: number, rounds: number): Promise<PageFigures[]> {
  const addresses = [emptyPage.address, ...pages.flatMap(({ bench }) => bench ?? [])];
  const taken = new Map<string, Pick<PageFigures, "firstSeconds" | "wholeSeconds">[]>();
  for (let round = -warmUps; round < rounds; round++) {
    for (const address of addresses) {
      const answer = await server.ask(address);
      const due = address === emptyPage.address ? 404 : 200;
      if (answer.status !== due) throw new Error(`${address} answers ${answer.status}`);
      if (round >= 0) taken.set(address, [...(taken.get(address) ?? []), answer]);
    }
  }
  const figuresOf = (address: string) => mediansOf(taken.get(address) ?? []);
  const empty = figuresOf(emptyPage.address);
  const figures: PageFigures[] = [];
  for (const address of addresses) {
    const { firstSeconds, wholeSeconds } = figuresOf(address);
    figures.push({
      address,
      units,
      firstSeconds,
      wholeSeconds,
      timesEmptyFirst: firstSeconds / empty.firstSeconds,
      timesEmptyWhole: wholeSeconds / empty.wholeSeconds,
      ...(await firstVisit(server.ask, address)),
    });
  }
  return figures;
}
