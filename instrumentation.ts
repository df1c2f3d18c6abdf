/** Runs once when `next start` comes up: the store is open and up to date before the first page is asked for. */
export async function register(): Promise<void> {
  if (process.env["NEXT_RUNTIME"] === "nodejs") {
    const { appStore } = await import("./db/app-store.ts");
    await appStore();
  }
}
