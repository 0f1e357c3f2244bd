/** The hatching of a disc that a propeller sweeps. It stands in the `defs` of a drawing, under the id `swept`. */
export function SweptPattern() {
  return (
    <pattern id="swept" width="16" height="16" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
      <rect width="16" height="16" fill="var(--paper)" />
      <rect width="7" height="16" fill="var(--danger)" />
    </pattern>
  );
}
