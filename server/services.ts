import { AircraftRecords } from "./aircraft/records.ts";
import { Devices } from "./auth/devices.ts";
import type { PinCost } from "./auth/pin.ts";
import { ServiceAccounts } from "./auth/service-accounts.ts";
import { type DeviceRule, type SignInLimits, SignIns } from "./auth/sign-ins.ts";
import type { ServerClock, Timers } from "./clock.ts";
import { type Named, Names } from "./evidence/names.ts";
import { Notary } from "./evidence/notary.ts";
import type { EvidenceSigner } from "./evidence/signer.ts";
import { Feeds } from "./feeds/feeds.ts";
import type { RawSamples } from "./feeds/raw-samples.ts";
import { EngineHistories } from "./history/engines.ts";
import { Lives } from "./history/lives.ts";
import { StartHistories } from "./history/starts.ts";
import { Writings } from "./history/writings.ts";
import { AircraftRegister } from "./house/aircraft.ts";
import { ChannelRegister } from "./house/channels.ts";
import { Currencies } from "./house/currencies.ts";
import { Dues } from "./house/dues.ts";
import { EquipmentRegister } from "./house/equipment.ts";
import { FirstRun } from "./house/first-run.ts";
import { Inspections } from "./house/inspections.ts";
import { HouseLists } from "./house/lists.ts";
import { houseOf } from "./house/settings.ts";
import type { DemoSignIn } from "./http/demo.ts";
import type { randomIds } from "./ids.ts";
import { NO_BUS, type Others } from "./many/bus.ts";
import { follow } from "./many/follow.ts";
import { PeerPresence } from "./many/peer-presence.ts";
import { DefectPictures } from "./pictures/defect-pictures.ts";
import type { PictureLimits } from "./pictures/limits.ts";
import { HouseScripts } from "./rehearsals/house-scripts.ts";
import type { LoopMeasure } from "./rehearsals/loop-share.ts";
import { Rehearsals } from "./rehearsals/rehearsals.ts";
import { Trainings } from "./rehearsals/trainings.ts";
import type { SessionLog } from "./sessions/deps.ts";
import { Planning } from "./sessions/planning.ts";
import { Sessions } from "./sessions/sessions.ts";
import type { Directory } from "./store/directory.ts";
import type { EventStore } from "./store/events.ts";
import type { SearchIndex } from "./store/search-index.ts";
import { BegunTypes } from "./types/begun.ts";
import { TypeDrafts } from "./types/drafts.ts";
import { TypeSeals } from "./types/seals.ts";

/** The services' dependencies: stores, clock, ids, secrets and settings. */
export interface ServicesDeps {
  store: EventStore;
  directory: Directory;
  /** Of everything written; whoever opened it closes it. */
  index: SearchIndex;
  clock: ServerClock;
  timers: Timers;
  ids: typeof randomIds;
  pinCost: PinCost;
  signer: EvidenceSigner;
  log: SessionLog;
  /** The other servers on the same database; null for a single server. */
  others: Others | null;
  /** Empty when the demo is off; then the demo's people cannot sign in. */
  demoSignIns: readonly DemoSignIn[];
  /** True if figures that are invented or about another type may be used: in the demo alone. */
  demoFigures: boolean;
  /** Devices that people may sign in on. */
  deviceRule: DeviceRule;
  limits: SignInLimits;
  /** Key for the MAC of nonces and permits. Servers behind one address share it. */
  secret: Buffer;
  /** Keeps the samples of instruments; null keeps none. */
  raw: RawSamples | null;
  /** Bounds on the pictures of defects. */
  pictureLimits: PictureLimits;
  /** Measures the rehearsals' part of the server's work. */
  loop: LoopMeasure;
}

/** The server's services, independent of HTTP and sockets. */
export interface Services extends ServicesDeps {
  sessions: Sessions;
  records: AircraftRecords;
  pictures: DefectPictures;
  starts: StartHistories;
  histories: EngineHistories;
  writings: Writings;
  lives: Lives;
  aircraft: AircraftRegister;
  equipment: EquipmentRegister;
  channels: ChannelRegister;
  feeds: Feeds;
  currencies: Currencies;
  inspections: Inspections;
  dues: Dues;
  firstRun: FirstRun;
  lists: HouseLists;
  planning: Planning;
  rehearsals: Rehearsals;
  scripts: HouseScripts;
  trainings: Trainings;
  signIns: SignIns;
  accounts: ServiceAccounts;
  devices: Devices;
  types: TypeDrafts;
  begun: BegunTypes;
  seals: TypeSeals;
  notary: Notary;
  names: Names;
  peers: PeerPresence;
  /** Stops the timers. Whoever opened the stores closes them. */
  close(): void;
}

/** Interval between checks of the machine's clock. Milliseconds. */
const LOOK_MS = 1_000;

/** Builds the services, and begins to record a restart in every session that is not over. */
export async function buildServices(deps: ServicesDeps): Promise<Services> {
  const { store, directory, clock, timers, ids, pinCost, signer, log, demoSignIns, others } = deps;
  const { deviceRule, limits, secret, demoFigures } = deps;
  const bus = others?.bus ?? NO_BUS;
  const notary = new Notary({ store, signer, clock, log });
  const names = await Names.open(directory.personal, await everybody(directory), ids.salt);
  const inTurn = directory.inTurn.bind(directory);
  const inspectsDefects = async () => (await houseOf(directory)).body.inspectsDefects;
  const records = new AircraftRecords({ store, clock, names, inspectsDefects, log });
  const pictures = new DefectPictures({
    records,
    store: directory.pictures,
    clock,
    limits: deps.pictureLimits,
  });
  const starts = new StartHistories({ store, index: deps.index, log });
  const histories = new EngineHistories(directory.register, starts);
  const lives = new Lives({ register: directory.register, starts, records, clock });
  const writings = new Writings({ store, index: deps.index, names, log });
  const equipment = new EquipmentRegister(directory, clock);
  const trainings = new Trainings(store, directory);
  const currencies = new Currencies(directory, store, clock, trainings);
  await currencies.catchUp();
  const about = { store, clock, timers, log, notary, names, bus, records, inTurn };
  const sessions = new Sessions({ ...about, equipment, currencies });
  const aircraft = new AircraftRegister(directory, clock);
  const inspections = new Inspections(directory, clock);
  const dues = new Dues({ directory, records, currencies, inspections, starts, clock });
  const channels = new ChannelRegister(directory, clock);
  const feeds = new Feeds({ sessions, directory, clock, timers, raw: deps.raw, log });
  const seals = new TypeSeals({ directory, signer, clock, log, demoFigures });
  await seals.begin();
  const types = new TypeDrafts(directory, clock, seals, demoFigures);
  const begun = new BegunTypes(directory, clock, types);
  const planning = new Planning({
    directory,
    store,
    sessions,
    records,
    equipment,
    currencies,
    clock,
    ids,
    names,
    seals,
  });
  const scripts = new HouseScripts(directory, clock);
  const rehearsals = new Rehearsals({
    ...{ directory, store, sessions, clock, ids, seals, names, timers, log, scripts, loop: deps.loop },
  });
  const demo = demoSignIns.length > 0;
  const accounts = new ServiceAccounts({ directory, clock, ids, pinCost });
  const signing = { devices: deviceRule, limits, secret, names, bus };
  const signIns = new SignIns({ directory, clock, ids, pinCost, demo, ...signing });
  const firstRun = new FirstRun({ directory, clock, ids, pinCost, demo });
  const endSignIns = async (personId: string) => void (await signIns.endAll({ personId }));
  const lists = new HouseLists({
    ...{ directory, clock, ids, pinCost, pinLength: signIns.pinLength, endSignIns },
  });
  const devices = new Devices({ directory, clock, ids }, signIns);
  const peers = new PeerPresence();
  let unfollow = () => {};
  if (others) {
    // No other server may enter before every clearance is void.
    await others.enter(async () => {
      await sessions.reopen();
      await sessions.whole;
    });
    unfollow = await follow({ bus, store, sessions, signIns, peers, clock, timers, log });
    await sessions.contributeAll();
  } else {
    await sessions.reopen();
    // Other servers may play what they began: only a server that is alone takes everything up.
    void sessions.whole.then(() => rehearsals.takeUp()).catch((err) => log.error({ err }, "rehearsals stay"));
  }

  let stop = timers.after(LOOK_MS, look);
  function look() {
    const by = clock.step();
    if (by !== null) void sessions.clockStepped(by);
    stop = timers.after(LOOK_MS, look);
  }
  const close = () => {
    stop();
    unfollow();
    rehearsals.close();
    sessions.close();
  };
  return {
    ...deps,
    sessions,
    records,
    pictures,
    starts,
    histories,
    writings,
    lives,
    aircraft,
    equipment,
    channels,
    feeds,
    currencies,
    inspections,
    dues,
    firstRun,
    lists,
    planning,
    rehearsals,
    scripts,
    trainings,
    signIns,
    accounts,
    devices,
    types,
    begun,
    seals,
    notary,
    names,
    peers,
    close,
  };
}

async function everybody(directory: Directory): Promise<Named[]> {
  return (await directory.people()).map(({ id, name }) => ({ personId: id, name }));
}
