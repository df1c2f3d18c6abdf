const anHourMs = 3_600_000;

/**
 * Runs once when `next start` comes up: the store is open and up to date before the first page is asked for, and what
 * a killed process left behind is swept away. An import that another process is still reading began within the hour.
 */
export async function register(): Promise<void> {
  if (process.env["NEXT_RUNTIME"] === "nodejs") {
    const { appStore } = await import("./db/app-store.ts");
    const { sweepStaged } = await import("./db/import-state.ts");
    const now = new Date();
    await sweepStaged(await appStore(), {
      olderThan: new Date(now.getTime() - anHourMs).toISOString(),
      by: "Borecast",
      at: now.toISOString(),
    });
  }
}
