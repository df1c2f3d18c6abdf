/** Labels at the ends of lines: those nearer than `gap` pixels become one, "cyl 1, 4". */
export interface LineLabel {
  readonly cylinders: readonly number[];
  readonly y: number;
}

export function mergeLineLabels(ends: readonly { cylinder: number; y: number }[], gap: number): LineLabel[] {
  let labels: LineLabel[] = ends.map((e) => ({ cylinders: [e.cylinder], y: e.y })).sort((a, b) => a.y - b.y);
  for (let i = 1; i < labels.length; ) {
    const [upper, lower] = [labels[i - 1], labels[i]];
    if (upper === undefined || lower === undefined || lower.y - upper.y >= gap) {
      i += 1;
      continue;
    }
    labels = [...labels.slice(0, i - 1), joined(upper, lower), ...labels.slice(i + 1)];
    // The middle moved, so the label above may now be too near.
    i = Math.max(1, i - 1);
  }
  return labels;
}

function joined(a: LineLabel, b: LineLabel): LineLabel {
  const [m, n] = [a.cylinders.length, b.cylinders.length];
  return {
    cylinders: [...a.cylinders, ...b.cylinders].sort((p, q) => p - q),
    y: (a.y * m + b.y * n) / (m + n),
  };
}

/** "cyl 1, 4"; a run of three or more is told by its ends: "cyl 1–5, 7". */
export function lineLabelWords(cylinders: readonly number[]): string {
  const runs: number[][] = [];
  for (const n of cylinders) {
    const run = runs.at(-1);
    if (run?.at(-1) === n - 1) run.push(n);
    else runs.push([n]);
  }
  return `cyl ${runs.map((r) => (r.length > 2 ? `${r[0]}–${r.at(-1)}` : r.join(", "))).join(", ")}`;
}

/** Heights of labels moved apart to stand at least `gap` pixels from one another, in the order given; none past `foot`. */
export function spreadLabels(wanted: readonly number[], gap: number, foot: number): number[] {
  const order = wanted.map((y, i) => ({ y, i })).sort((a, b) => a.y - b.y);
  for (const [n, label] of order.entries()) {
    const above = order[n - 1];
    if (above !== undefined) label.y = Math.max(label.y, above.y + gap);
  }
  let below = foot + gap;
  for (const label of order.toReversed()) {
    label.y = Math.min(label.y, below - gap);
    below = label.y;
  }
  return order.sort((a, b) => a.i - b.i).map((label) => label.y);
}
