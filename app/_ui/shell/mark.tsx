/** Our mark: a bore seen from above, and the window that opens from today. */
export function Mark() {
  return (
    <svg width="30" height="20" viewBox="0 0 30 20" aria-hidden="true">
      <path d="M13 10 29 3V17Z" fill="#6fb0b5" />
      <circle cx="9" cy="10" r="7.2" fill="none" stroke="#ffffff" strokeWidth="2.6" />
      <path d="M9 10H28" stroke="#ffffff" strokeWidth="2.2" />
    </svg>
  );
}
