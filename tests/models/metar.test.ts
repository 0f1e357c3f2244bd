import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readMetar } from "../../shared/models/weather/metar.ts";
import { must } from "./must.ts";

describe("METAR", () => {
  it("[MOD-65] FMH-1's sample: freezing fog, thunder in the vicinity, tenths in the remarks", () => {
    const text =
      "METAR KTTN 051853Z 04011KT 1/2SM VCTS SN FZFG BKN003 OVC010 M02/M02 A3006 RMK AO2 TSB40 SLP176 P0002 T10171017=";
    expect(must(readMetar(text))).toEqual({
      station: "KTTN",
      day: 5,
      hour: 18,
      minute: 53,
      automatic: false,
      wind: {
        ...{ fromDeg: 40, variable: false, sector: null, speedKt: 11 },
        ...{ gustKt: null, peakKt: null, above: false },
      },
      visibility: { metres: 804.672, bound: "exact" },
      cavok: false,
      temperatureC: -1.7,
      dewPointC: -1.7,
      tenths: true,
      pressure: { value: 30.06, unit: "inHg" },
      clouds: [
        { cover: "BKN", baseFt: 300 },
        { cover: "OVC", baseFt: 1000 },
      ],
      verticalVisibilityFt: null,
      weather: ["VCTS", "SN", "FZFG"],
      thunderstorm: true,
    });
    const whole = must(readMetar(text.slice(0, text.indexOf(" RMK"))));
    expect(whole).toMatchObject({ temperatureC: -2, dewPointC: -2, tenths: false });
  });

  it("[MOD-65] swinging wind and vertical visibility", () => {
    const text = "METAR KMKL 021250Z 33018KT 290V360 1/2SM R31/2600FT SN BLSN FG VV008 00/M03 A2991";
    expect(must(readMetar(text))).toMatchObject({
      wind: { fromDeg: 330, speedKt: 18, sector: { fromDeg: 290, toDeg: 360 } },
      verticalVisibilityFt: 800,
      temperatureC: 0,
      dewPointC: -3,
      pressure: { value: 29.91, unit: "inHg" },
      weather: ["SN", "BLSN", "FG"],
      thunderstorm: false,
    });
  });

  it("[MOD-65] calm; M00 is plain zero, not minus zero", () => {
    const calm = must(readMetar("LFPG 170830Z 00000KT 0350 R27L/0375N R09R/0175N FG NSC M00/M00 Q1026"));
    expect(calm.wind).toEqual({
      ...{ fromDeg: null, variable: false, sector: null, speedKt: 0 },
      ...{ gustKt: null, peakKt: null, above: false },
    });
    expect(calm.visibility).toEqual({ metres: 350, bound: "exact" });
    expect(Object.is(calm.temperatureC, 0)).toBe(true);
    expect(Object.is(calm.dewPointC, 0)).toBe(true);
    expect(calm.pressure).toEqual({ value: 1026, unit: "hPa" });
    expect(calm.clouds).toEqual([]);
  });

  it("[MOD-65] variable wind has no direction; CAVOK is 10 km or more", () => {
    const field = must(readMetar("METAR EGLL 201250Z VRB03KT CAVOK 21/10 Q1021 NOSIG"));
    expect(field.wind).toMatchObject({ fromDeg: null, variable: true, speedKt: 3 });
    expect(field).toMatchObject({ cavok: true, visibility: { metres: 9999, bound: "atLeast" } });
  });

  it("[MOD-65] gust, and m/s as knots", () => {
    const gusty = must(readMetar("KJFK 122051Z 28017G27KT 10SM FEW250 M08/M21 A3034"));
    expect(gusty.wind).toMatchObject({ fromDeg: 280, speedKt: 17, gustKt: 27 });
    expect(gusty).toMatchObject({
      temperatureC: -8,
      dewPointC: -21,
      clouds: [{ cover: "FEW", baseFt: 25_000 }],
    });
    const metric = must(readMetar("UUEE 201250Z 05005G10MPS 9999 NSC 15/10 Q1010"));
    expect(metric.wind?.speedKt).toBeCloseTo(9.719, 3);
    expect(metric.wind?.gustKt).toBeCloseTo(19.438, 3);
  });

  it.each([
    ["28099KT", 99, null],
    ["280100KT", 100, null],
    ["280160KT", 160, null],
    ["VRB100KT", 100, null],
    ["28085G105KT", 85, 105],
    ["280100G125KT", 100, 125],
  ] as const)("[MOD-65] FMH-1 12.6.5: %s has all the digits of its speeds", (group, speedKt, gustKt) => {
    const field = must(readMetar(`EGLL 201250Z ${group} CAVOK 21/10 Q1021`));
    expect(field.wind).toMatchObject({ speedKt, gustKt });
  });

  it("[MOD-65] what the report leaves out is null; what is no report is refused", () => {
    const part = must(readMetar("KJFK 122051Z AUTO 28017KT P6SM FEW250 08/ A3034"));
    expect(part).toMatchObject({ automatic: true, dewPointC: null, visibility: { bound: "atLeast" } });
    for (const text of ["", "hello", "METAR KBAD garbage", "EGLL 201250Z /////KT //// Q////"]) {
      expect(readMetar(text).ok).toBe(false);
    }
  });

  it("[MOD-65] no text makes it throw, and every figure read is finite", () => {
    const group = fc.constantFrom(
      "METAR",
      "EGLL",
      "201250Z",
      "VRB99G01KT",
      "CAVOK",
      "M00/M00",
      "Q9999",
      "A",
      "RMK",
      "T1",
      "TSRA",
      "////",
      "1/0SM",
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(group).map((g) => g.join(" ")),
        ),
        (text) => {
          const read = readMetar(text);
          if (read.ok && read.value.temperatureC !== null)
            expect(Number.isFinite(read.value.temperatureC)).toBe(true);
          expect(typeof read.ok).toBe("boolean");
        },
      ),
      { seed: 65, numRuns: 400 },
    );
  });
});
