"use client";

import "./globals.css";

/** The frame itself could not be made: the data folder is missing, locked or not readable. */
export default function FrameError({ error }: { readonly error: Error & { digest?: string } }) {
  return (
    <html lang="en">
      <body>
        <title>Not available · Borecast</title>
        <main className="page">
          <div className="error-note" role="alert">
            <h1 className="finding">The fleet’s data could not be opened.</h1>
            <p>Nothing was changed.</p>
            <p>
              See that the data folder is there and may be written, then try again
              {error.digest === undefined ? "." : `; the server’s log names the cause under ${error.digest}.`}
            </p>
            <button
              type="button"
              className="button-link"
              data-variant="filled"
              onClick={() => window.location.reload()}
            >
              Try again
            </button>
          </div>
        </main>
      </body>
    </html>
  );
}
