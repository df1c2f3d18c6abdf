/** What the server answered: its JSON, or a sentence that says why not. */
export type Answer<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: string };

const noServer = "The server cannot be reached. Nothing was changed; try again once it runs.";
const noSentence = "The server gave no reason. Nothing was changed; try again.";

/** Asks the app's own API, with a body as JSON or a file as it is. The caller knows the shape that the address answers. */
export async function callApi<T>(method: "POST" | "DELETE", address: string, body?: object): Promise<Answer<T>> {
  try {
    const response = await fetch(address, {
      method,
      ...sent(body),
    });
    const value: unknown = await response.json().catch(() => null);
    return response.ok ? { ok: true, value: value as T } : { ok: false, error: errorOf(value) };
  } catch {
    return { ok: false, error: noServer };
  }
}

function sent(body: object | undefined): RequestInit {
  if (body === undefined) return {};
  if (body instanceof Blob) return { body };
  return { body: JSON.stringify(body), headers: { "content-type": "application/json" } };
}

function errorOf(value: unknown): string {
  if (value === null || typeof value !== "object" || !("error" in value)) return noSentence;
  return typeof value.error === "string" ? value.error : noSentence;
}

/** Sends a file to an upload; `fetch` does not tell how far it is. null: it was given up by `signal`. */
export function sendFile(
  upload: string,
  file: File,
  { onSent, signal }: { readonly onSent: (bytes: number) => void; readonly signal: AbortSignal },
): Promise<Answer<unknown> | null> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest();
    request.open("POST", `/api/uploads/${upload}?name=${encodeURIComponent(file.name)}`);
    request.responseType = "json";
    request.upload.onprogress = (event) => onSent(event.loaded);
    request.onload = () =>
      resolve(
        request.status < 300
          ? { ok: true, value: request.response }
          : { ok: false, error: errorOf(request.response as unknown) },
      );
    request.onerror = () => resolve({ ok: false, error: noServer });
    request.onabort = () => resolve(null);
    signal.addEventListener("abort", () => request.abort());
    request.send(file);
  });
}
