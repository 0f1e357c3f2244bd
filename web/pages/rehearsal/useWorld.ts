import { useEffect, useState } from "react";
import { rehearsals, type SeenWorld } from "../../net/rehearsals.ts";

/** Time between two looks at the simulated aircraft. Milliseconds. */
const LOOK_MS = 500;

/** Returns what this person sees of a rehearsal's world, twice a second; `lost` when it is played no more. */
export function useWorld(id: string): { world: SeenWorld | null; lost: boolean; look(): void } {
  const [world, setWorld] = useState<SeenWorld | null>(null);
  const [lost, setLost] = useState(false);
  const [looks, setLooks] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `looks` asks for a look at once
  useEffect(() => {
    let wanted = true;
    const look = () =>
      rehearsals.world(id).then(
        (seen) => {
          if (!wanted) return;
          setWorld(seen);
          setLost(false);
        },
        () => {
          if (wanted) setLost(true);
        },
      );
    void look();
    const timer = setInterval(look, LOOK_MS);
    return () => {
      wanted = false;
      clearInterval(timer);
    };
  }, [id, looks]);
  return { world, lost, look: () => setLooks((n) => n + 1) };
}
