"use client";

const noServer = "The server cannot be reached. What you typed stands here; try again once it runs.";
const serverFailed = "The server could not do it; its output tells why. What you typed stands here.";

/**
 * What a server action answers; where none comes, what `otherwise` makes of a sentence that says why. An action that throws
 * would take the page with all that was typed away.
 */
export async function askServer<T>(action: () => Promise<T>, otherwise: (problem: string) => T): Promise<T> {
  try {
    return await action();
  } catch (error) {
    // Next marks with a digest what the server threw; anything else never came back from it.
    const failedThere = typeof error === "object" && error !== null && "digest" in error;
    return otherwise(failedThere ? serverFailed : noServer);
  }
}
