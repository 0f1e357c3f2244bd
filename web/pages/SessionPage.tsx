import { type ReactNode, Suspense, useEffect, useMemo, useRef, useState } from "react";
import { starterHeld } from "../../shared/engine/starterHeld.ts";
import { postHeld } from "../../shared/posts/postHeld.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import type { WireError } from "../../shared/protocol/wire.ts";
import { timeOfDay } from "../../shared/words/dates.ts";
import type { PersonRow } from "../net/api.ts";
import { api, useConnectionView, useLight, useWatch } from "../net/app.ts";
import type { Connection } from "../net/connection.ts";
import { useFigureWay } from "../net/figureWay.ts";
import { device, type Me } from "../net/keep.ts";
import { useMoment } from "../net/now.ts";
import { useShown } from "../net/useShown.ts";
import { CockpitPanel } from "../posts/cockpit/CockpitPanel.tsx";
import { FireGuardPanel } from "../posts/fireGuard/FireGuardPanel.tsx";
import { GroundPowerPanel } from "../posts/groundPower/GroundPowerPanel.tsx";
import { ObserverPanel } from "../posts/observer/ObserverPanel.tsx";
import type { Panel } from "../posts/shared/model.ts";
import { PanelFrame } from "../posts/shared/PanelFrame.tsx";
import { makesNothingLessSafe } from "../posts/shared/safety.ts";
import { useWatching } from "../pwa/watching.ts";
import { asksForTest } from "../senses/mayTest.ts";
import { keptTest, useTested } from "../senses/tested.ts";
import { LeftAsWritten } from "../ui/AuthorsWords.tsx";
import { type Figuring, FiguringContext, NO_FIGURING } from "../ui/figuring.ts";
import { LightKey } from "../ui/LightKey.tsx";
import { later, laterPart } from "../ui/later.tsx";
import { type Opened, useNowOpen, useOpened } from "../ui/opened.ts";
import { TitleBlock } from "../ui/TitleBlock.tsx";
import { useWords } from "../words/words.ts";
import { connectionWords, isFresh, postCells, stageStep, staleWords } from "./connectionWords.ts";
import { go } from "./route.ts";

/** Loaded separately, because other posts must not wait for the exchange chart and the board. */
const SupervisorPage = later(() => import("./SupervisorPage.tsx").then((m) => m.SupervisorPage));
const CockpitReadings = later(() => import("./CockpitReadings.tsx").then((m) => m.CockpitReadings));
const Senses = later(() => import("../senses/Senses.tsx").then((m) => m.Senses));
const SessionSheet = later(() => import("./SessionSheet.tsx").then((m) => m.SessionSheet));

const RehearsalStrip = later(() => import("./rehearsal/RehearsalStrip.tsx").then((m) => m.RehearsalStrip));

const figuringPart = laterPart(() => import("../posts/shared/figuringOf.ts").then((m) => m.figuringOf));

interface Props {
  id: string;
  me: Me;
  connection: Connection;
  /** A post that is offered to this person, in this session or another. */
  call: ReactNode;
}

/** One session as this person sees it: the title block, then the panel of their post. */
export function SessionPage({ id, me, connection, call }: Props) {
  const words = useWords();
  const { say, text } = words;
  useWatch(connection, id);
  const view = useConnectionView(connection);
  const moment = useMoment(connection, view, view.state !== null && starterHeld(view.state));
  const [people, setPeople] = useState<PersonRow[]>([]);
  const [light, setLight] = useLight();
  const menu = useOpened<true>();
  const [way, onWay] = useFigureWay();
  const { current: kept } = useRef<Figuring["kept"]>(new Map());
  useEffect(() => {
    api.people().then(setPeople, () => undefined);
  }, []);
  const state = useMemo(() => view.state && words.stateIn(view.state), [view.state, words]);
  const type = state?.type;
  const left = useMemo(() => (type ? words.leftAsWritten(type) : new Set<string>()), [type, words]);
  const post = state && postHeld(state, { id: me.id, device: device().id });
  useShown(connection, state, post, moment.server);
  useWatching();
  const tested = useTested();
  if (!state || view.session !== id)
    return <Waiting trouble={view.trouble} words={connectionWords(view, moment.panel, text)} />;

  const fresh = isFresh(view, moment.panel);
  // Anybody may practise any post.
  const who = state.rehearsal ? { ...me, mayHold: [...POSTS] } : me;
  const panel: Panel = {
    state,
    post,
    me: who,
    device: device().id,
    words,
    people,
    now: moment.server,
    links: view.links,
    fresh,
    sent: view.outgoing,
    unrecorded: view.unrecorded,
    // Keys that may not be used are disabled already. This check covers the moment before they are redrawn.
    act: (action, confirmed) =>
      isFresh(connection.view(), Date.now()) || makesNothingLessSafe(action)
        ? connection.act(action, confirmed)
        : null,
    confirm: (pin) => api.confirm(pin, id),
    sendAnew: (sent) => connection.sendAnew(sent),
    drop: (sent) => connection.drop(sent),
    takeIn: (notice) => connection.takeIn(notice),
  };
  const figuring: Figuring = { ...(figuringPart()?.(panel) ?? NO_FIGURING), kept, way, onWay };
  const stale = fresh ? null : staleWords(view, moment.panel, text);
  return (
    <FiguringContext value={figuring}>
      <LeftAsWritten value={left}>
        <div className="session">
          <TitleBlock
            aircraft={state.rehearsal?.of ?? state.aircraft}
            rehearsal={state.rehearsal !== undefined}
            typeName={state.type.name}
            place={state.place}
            stage={say.stage(state.stage)}
            stageStep={stageStep(state, text)}
            posts={postCells(state, view.links, who, post, moment.server, fresh, tested, words)}
            clock={timeOfDay(moment.server)}
            connection={connectionWords(view, moment.panel, text)}
            connectionIs={fresh ? "live" : "stale"}
            onPosts={() => menu.open(true)}
          >
            <LightKey light={light} onLight={setLight} />
          </TitleBlock>
          <div>
            {call}
            <Suspense fallback={<NoticesToCome panel={panel} />}>
              <Senses panel={panel} lasting={view.lasting} />
            </Suspense>
            {state.rehearsal && (
              <Suspense fallback={null}>
                <RehearsalStrip panel={panel} />
              </Suspense>
            )}
            {/* Before the panel, so that Tab leads from the sheet to the ask and the stops. Not its neighbour, because
                the browser would match the styles of the whole panel again. */}
            <OpenMenu panel={panel} opened={menu} />
          </div>
          {post === "cockpit" && (
            <CockpitPanel
              panel={panel}
              stale={stale}
              readings={
                <Suspense fallback={null}>
                  <CockpitReadings panel={panel} connection={connection} />
                </Suspense>
              }
            />
          )}
          {post === "fireGuard" && <FireGuardPanel panel={panel} stale={stale} />}
          {post === "groundPower" && <GroundPowerPanel panel={panel} stale={stale} />}
          {post === "supervisor" && (
            <Suspense fallback={<SupervisorToCome panel={panel} stale={stale} />}>
              <SupervisorPage panel={panel} stale={stale} connection={connection} />
            </Suspense>
          )}
          {post === null && <ObserverPanel panel={panel} stale={stale} onPosts={() => menu.open(true)} />}
        </div>
      </LeftAsWritten>
    </FiguringContext>
  );
}

/** The sheet with the posts and settings. */
function OpenMenu({ panel, opened }: { panel: Panel; opened: Opened<true> }) {
  if (useNowOpen(opened) === null) return null;
  return (
    <Suspense>
      <SessionSheet panel={panel} onClose={opened.close} />
    </Suspense>
  );
}

/**
 * The current ask and the stops, while the rest of the supervisor's panel loads. Content below that part is not shown
 * before it.
 */
function SupervisorToCome({ panel, stale }: { panel: Panel; stale: string | null }) {
  return (
    <PanelFrame panel={panel} stale={stale} kind="supervisor">
      <div className="posts-to-come" data-asking="true" />
    </PanelFrame>
  );
}

/** Reserves the place of the device's notices while they load, because the ask must not move away from a finger. */
function NoticesToCome({ panel }: { panel: Panel }) {
  return <div className="notices" data-row={asksForTest(panel, keptTest()) ? "test" : undefined} />;
}

function Waiting({ trouble, words }: { trouble: WireError | null; words: string }) {
  const { net, ramp, session } = useWords().text;
  return (
    <main className="page waiting">
      <h1>{trouble === null ? session.fetching : net.wire[trouble]}</h1>
      <p>{session.until(words)}</p>
      <button type="button" className="answer" data-tone="plain" onClick={() => go("/")}>
        {ramp.back}
      </button>
    </main>
  );
}
