import "./page-wait.css";

const rows = [82, 64, 90, 71, 58, 76] as const;

/**
 * The next page as far as it is known while it is awaited: finding, figures, a table with its axis, as grey bars of
 * their final size. Stands unseen in every page; the style sheet shows it once a link to another page waits for longer
 * than a moment, so that nothing flickers and the frame stays.
 */
export function PageWait() {
  return (
    <div className="page-wait" aria-hidden="true">
      <div className="page">
        <div className="wait-finding">
          <span />
          <span />
        </div>
        <div className="sheet">
          <span className="wait-head" />
          <div className="wait-axis">
            <i />
            <i />
            <i />
          </div>
          {rows.map((width) => (
            <div key={width} className="wait-row">
              <span style={{ width: `${width}%` }} />
              <span style={{ width: `${width - 24}%` }} />
            </div>
          ))}
        </div>
      </div>
    </div>
  );
}
