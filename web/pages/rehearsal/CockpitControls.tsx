import { type PointerEvent, useRef } from "react";
import { type Controls, type EngineControls, HANDS_OFF } from "../../../shared/simulation/state.ts";
import { rehearsals, type SeenWorld } from "../../net/rehearsals.ts";
import { useRehearsalWords } from "../../words/rehearsal.ts";

interface Props {
  id: string;
  engine: number;
  world: SeenWorld;
  /** Called when the server has them. */
  onDone(): void;
}

/** The few controls of the simulated cockpit, for one engine. The starter and the primer work while they are held. */
export function CockpitControls({ id, engine, world, onDone }: Props) {
  const words = useRehearsalWords();
  // Two touches within one look build on each other.
  const latest = useRef<Controls>(world.controls);
  const pending = useRef(0);
  if (pending.current === 0) latest.current = world.controls;
  const set = (controls: Controls | null) => {
    if (controls) latest.current = controls;
    pending.current += 1;
    const done = () => {
      pending.current -= 1;
      onDone();
    };
    void rehearsals.hands(id, controls).then(done, done);
  };
  const own = latest.current.engines[engine] ?? HANDS_OFF;
  const change = (more: Partial<EngineControls>) => {
    const now = latest.current;
    const before = now.engines[engine] ?? HANDS_OFF;
    set({ ...now, engines: { ...now.engines, [engine]: { ...before, ...more } } });
  };
  const held = (what: "starter" | "primer", word: string) => {
    const release = () => {
      if (latest.current.engines[engine]?.[what]) change({ [what]: false });
    };
    return (
      <button
        type="button"
        className="small-key"
        aria-pressed={own[what]}
        onPointerDown={(event: PointerEvent<HTMLButtonElement>) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          change({ [what]: true });
        }}
        onPointerUp={release}
        onPointerCancel={release}
        onKeyDown={(e) => e.key === " " && !e.repeat && change({ [what]: true })}
        onKeyUp={(e) => e.key === " " && release()}
        onContextMenu={(e) => e.preventDefault()}
      >
        {word}
      </button>
    );
  };
  const toggle = (word: string, on: boolean, press: () => void) => (
    <button type="button" className="small-key" aria-pressed={on} onClick={press}>
      {`${word}: ${on ? words.on : words.off}`}
    </button>
  );
  const rich = own.mixture > 0.3;
  const open = own.throttle > 0.5;
  const engines = Object.keys(world.controls.engines).map(Number);
  const next = () => {
    const all = [null, ...engines];
    const at = all.indexOf(latest.current.vacuumFrom);
    set({ ...latest.current, vacuumFrom: all[(at + 1) % all.length] ?? null });
  };
  return (
    <fieldset className="rehearsal-controls" data-by-hand={world.byHand || undefined}>
      <legend className="rehearsal-head">
        {`${words.controls}, ${words.engine(engine)}${world.byHand ? "" : `. ${words.goodHands}`}`}
      </legend>
      {held("primer", words.primer)}
      {held("starter", words.starter)}
      {toggle(words.ignition, own.ignition, () => change({ ignition: !own.ignition }))}
      {toggle(words.boostPump, own.boostPump, () => change({ boostPump: !own.boostPump }))}
      <button type="button" className="small-key" onClick={() => change({ mixture: rich ? 0 : 0.8 })}>
        {rich ? words.rich : words.cutOff}
      </button>
      <button type="button" className="small-key" onClick={() => change({ throttle: open ? 0.1 : 1 })}>
        {open ? words.throttleOpen : words.throttleClosed}
      </button>
      <button type="button" className="small-key" onClick={next}>
        {words.vacuum(latest.current.vacuumFrom)}
      </button>
      {toggle(words.generators, latest.current.generators, () =>
        set({ ...latest.current, generators: !latest.current.generators }),
      )}
      {world.byHand && (
        <button type="button" className="small-key" onClick={() => set(null)}>
          {words.leave}
        </button>
      )}
    </fieldset>
  );
}
