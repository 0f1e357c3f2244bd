import type { HouseHistory } from "../../net/history.ts";
import { useHouseStartsWords } from "../../words/houseStarts.ts";
import { useWords } from "../../words/words.ts";
import { BarTable } from "./BarTable.tsx";

const rateOf = (rate: number | null): string => (rate === null ? "" : rate.toFixed(2));

/** Alerts with those that were a nuisance, and touches that said that a person is there. */
export function AlertTables({ told: { alerts, touches, few } }: { told: HouseHistory }) {
  const words = useHouseStartsWords();
  const { say } = useWords();
  const { raised, nuisance, perStart, nuisancePerStart } = alerts;
  const said = few
    ? words.alertsAre(raised, nuisance)
    : words.alertsPerStart(rateOf(perStart), rateOf(nuisancePerStart));
  return (
    <>
      <BarTable
        title={words.byAlert}
        said={[said, words.nuisanceIs(alerts.briefS)]}
        of={words.alert}
        columns={[words.times, words.nuisance, words.shelved, words.brief]}
        rows={alerts.kinds.map((k) => ({
          key: k.kind,
          name: say.anyAlert(k.kind),
          figures: [k.raised, k.nuisance, k.shelved, k.brief].map(String),
          size: k.raised,
        }))}
      />
      <BarTable
        title={words.byTouch}
        said={[words.touchesAre]}
        of={words.engine}
        columns={[words.touches, words.startsAs, words.perStart]}
        rows={touches.map((t) => ({
          key: t.serial ?? `${t.aircraft} ${t.n}`,
          name: [...(t.serial === null ? [] : [t.serial]), words.place(t.n, t.aircraft)].join(", "),
          figures: [String(t.touches), String(t.starts), rateOf(t.perStart)],
          size: t.touches,
        }))}
      />
    </>
  );
}
