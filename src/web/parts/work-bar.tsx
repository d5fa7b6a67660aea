/** A plain bar beside the words that say how far a piece of work is. */
export function WorkBar({
  done,
  total,
  label,
}: {
  readonly done: number;
  readonly total: number;
  readonly label: string;
}) {
  const share = total === 0 ? 0 : done / total;
  return (
    <div
      className="bar"
      role="progressbar"
      aria-label={label}
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={Math.round(share * 100)}
    >
      <svg width="100%" height="8" aria-hidden="true">
        <rect className="frame" x=".5" y=".5" width="100%" height="7" />
        <rect className="done" width={`${(share * 100).toFixed(1)}%`} height="8" />
      </svg>
    </div>
  );
}
