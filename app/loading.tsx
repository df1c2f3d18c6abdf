import { Sheet } from "./_ui/sheet.tsx";

const bars = ["62%", "48%", "70%", "55%", "64%", "50%", "58%", "66%"] as const;

/** The frame and a page's bones, at their final place; the bars come only after a wait that is noticed. */
export default function Loading() {
  return (
    <div className="page" aria-busy="true">
      <p className="visually-hidden" role="status">
        Loading
      </p>
      <div className="finding waiting" aria-hidden="true">
        <span className="text-bar" style={{ width: "min(100%, 40rem)", marginBlock: "0.19em" }} />
        <span className="text-bar" style={{ width: "min(70%, 26rem)", marginBlock: "0.19em" }} />
      </div>
      <Sheet label="Loading">
        <div className="waiting" aria-hidden="true">
          {bars.map((width) => (
            <span key={width} className="text-bar" style={{ width, marginBlock: "15px" }} />
          ))}
        </div>
      </Sheet>
    </div>
  );
}
