/** Which two plans are compared; a form of the page's own, which needs no script. */
export function PlansChoice(props: {
  readonly plans: readonly { readonly id: number; readonly says: string }[];
  readonly before: number;
  readonly after: number;
}) {
  const select = (name: string, label: string, at: number) => (
    <label>
      <span>{label}</span>
      <select name={name} defaultValue={at} key={at}>
        {props.plans.map(({ id, says }) => (
          <option key={id} value={id}>
            {says}
          </option>
        ))}
      </select>
    </label>
  );
  return (
    <form action="/plan/compare" className="plans-choice">
      {select("before", "Before", props.before)}
      {select("after", "After", props.after)}
      <button type="submit" className="button-link">
        Compare
      </button>
    </form>
  );
}
