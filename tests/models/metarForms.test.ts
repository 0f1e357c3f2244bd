import { describe, expect, it } from "vitest";
import { readFieldReport } from "../../shared/models/weather/fieldReport.ts";

/**
 * Reports written by hand from the code forms, and their readings worked out from them by hand: FMH-1 chapter 12 (US),
 * and WMO No. 306 vol. I.1, FM 15 METAR. Conversions: 1 kt = 1852 m/h exactly (1 m/s = 1.9438 kt, 1 km/h = 0.53996 kt),
 * 1 inHg = 33.8639 hPa.
 *
 * A reading: direction (--- not given or variable, with the limits of a swing), knots, gust; temperature / dew point in
 * °C; QNH in hPa; T for a thunderstorm.
 */
const NOW = Date.UTC(2026, 5, 20, 12, 55);
const BODY = "9999 FEW020 10/05 Q1012";
const REST = "10/5 1012";

const READ: readonly [text: string, reading: string][] = [
  // Wind: dddff, KT, MPS and KMH (FM 15 15.5; FMH-1 12.6.5).
  [`EGLL 201250Z 24008KT ${BODY}`, `240 8 - ${REST}`],
  [`EGLL 201250Z 36010KT ${BODY}`, `360 10 - ${REST}`],
  [`EGLL 201250Z 00000KT ${BODY}`, `--- 0 - ${REST}`],
  [`EGLL 201250Z 00000MPS ${BODY}`, `--- 0 - ${REST}`],
  [`EGLL 201250Z VRB03KT ${BODY}`, `--- 3 - ${REST}`],
  [`EGLL 201250Z VRB02G15KT ${BODY}`, `--- 2 15 ${REST}`],
  [`EGLL 201250Z 24008G20KT ${BODY}`, `240 8 20 ${REST}`],
  [`EGLL 201250Z 24099KT ${BODY}`, `240 99 - ${REST}`],
  [`EGLL 201250Z 240100KT ${BODY}`, `240 100 - ${REST}`],
  [`EGLL 201250Z 240100G125KT ${BODY}`, `240 100 125 ${REST}`],
  [`EGLL 201250Z 24080G105KT ${BODY}`, `240 80 105 ${REST}`],
  [`EGLL 201250Z 240P99KT ${BODY}`, `240 100 - ${REST}`],
  [`EGLL 201250Z P99KT ${BODY}`, `--- 100 - ${REST}`],
  [`EGLL 201250Z 24080GP99KT ${BODY}`, `240 80 100 ${REST}`],
  [`EGLL 201250Z 240P49MPS ${BODY}`, `240 97.2 - ${REST}`],
  [`EGLL 201250Z ABV49MPS ${BODY}`, `--- 97.2 - ${REST}`],
  [`EGLL 201250Z 240ABV99KT ${BODY}`, `240 100 - ${REST}`],
  [`EGLL 201250Z 240P199KMH ${BODY}`, `240 108 - ${REST}`],
  [`UUEE 201250Z 05005MPS ${BODY}`, `50 9.7 - ${REST}`],
  [`UUEE 201250Z 05005G10MPS ${BODY}`, `50 9.7 19.4 ${REST}`],
  [`ZBAA 201250Z 05003G08MPS 020V090 ${BODY}`, `50 20-90 5.8 15.6 ${REST}`],
  [`EGLL 201250Z 24030KMH ${BODY}`, `240 16.2 - ${REST}`],
  [`EGLL 201250Z 24030G50KMH ${BODY}`, `240 16.2 27 ${REST}`],
  [`EGLL 201250Z 24030KM/H ${BODY}`, `240 16.2 - ${REST}`],
  [`EGLL 201250Z ///08KT ${BODY}`, `--- 8 - ${REST}`],
  [`EGLL 201250Z 240//KT ${BODY}`, `--- - - ${REST}`],
  [`EGLL 201250Z /////KT ${BODY}`, `--- - - ${REST}`],
  [`EGLL 201250Z ${BODY}`, `--- - - ${REST}`],
  [`EGLL 201250Z 24008G//KT ${BODY}`, `240 8 - ${REST}`],
  [`EGLL 201250Z 00008KT ${BODY}`, `--- 8 - ${REST}`],
  [`EGLL 201250Z 24008 KT ${BODY}`, `240 8 - ${REST}`],
  // A direction that varies by 60 degrees or more (FMH-1 12.6.5.c): clockwise limits.
  [`EGLL 201250Z 24008KT 200V280 ${BODY}`, `240 200-280 8 - ${REST}`],
  [`EGLL 201250Z 36008KT 320V040 ${BODY}`, `360 320-40 8 - ${REST}`],
  [`EGLL 201250Z 35012G22KT 310V030 ${BODY}`, `350 310-30 12 22 ${REST}`],
  [`EGLL 201250Z VRB08KT 200V280 ${BODY}`, `--- 200-280 8 - ${REST}`],
  // Peak wind of the past hour, remarks (FMH-1 12.7.1.d).
  ["KJFK 201251Z 28017KT 10SM CLR 19/07 A3034 RMK AO2 PK WND 28045/1215 SLP275", "280 17 45 19/7 1027.4"],
  ["KJFK 201251Z 28017G30KT 10SM CLR 19/07 A3034 RMK AO2 PK WND 29028/33", "280 17 30 19/7 1027.4"],
  ["KJFK 201251Z 28017G30KT 10SM CLR 19/07 A3034 RMK PK WND 290104/1233", "280 17 104 19/7 1027.4"],
  ["KJFK 201251Z 28027KT 10SM CLR 19/07 A3034 RMK PK WND 29026/1233", "280 27 - 19/7 1027.4"],
  ["KJFK 201251Z 28017KT 10SM CLR 19/07 A3034 RMK AO2 WSHFT 1230", "280 17 - 19/7 1027.4"],
  // Temperature and dew point (FMH-1 12.6.10), and tenths in the remarks (12.7.2.d).
  ["EGLL 201250Z 24008KT 9999 M05/M10 Q1012", "240 8 - -5/-10 1012"],
  ["EGLL 201250Z 24008KT 9999 M00/M00 Q1012", "240 8 - 0/0 1012"],
  ["EGLL 201250Z 24008KT 9999 00/M01 Q1012", "240 8 - 0/-1 1012"],
  ["EGLL 201250Z 24008KT 9999 02/M03 Q1012", "240 8 - 2/-3 1012"],
  ["EGLL 201250Z 24008KT 9999 19/// Q1012", "240 8 - 19/- 1012"],
  ["EGLL 201250Z 24008KT 9999 09/ Q1012", "240 8 - 9/- 1012"],
  ["EGLL 201250Z 24008KT 9999 M09/ Q1012", "240 8 - -9/- 1012"],
  ["EGLL 201250Z 24008KT 9999 M19/// Q1012", "240 8 - -19/- 1012"],
  ["EGLL 201250Z 24008KT 9999 19/XX Q1012", "240 8 - 19/- 1012"],
  ["EGLL 201250Z 24008KT 9999 ///// Q1012", "240 8 - -/- 1012"],
  ["EGLL 201250Z 24008KT 9999 ///07 Q1012", "240 8 - -/7 1012"],
  ["EGLL 201250Z 24008KT 9999 Q1012", "240 8 - -/- 1012"],
  ["EGLL 201250Z 24008KT 9999 40/12 Q1002", "240 8 - 40/12 1002"],
  ["EGLL 201250Z 24008KT 9999 M52/M56 Q1002", "240 8 - -52/-56 1002"],
  ["KABC 201250Z 24008KT 10SM 19/07 A2992 RMK AO2 T01940072", "240 8 - 19.4/7.2 1013.2"],
  ["KABC 201250Z 24008KT 10SM 01/M01 A2992 RMK AO2 T00081012", "240 8 - 0.8/-1.2 1013.2"],
  ["KABC 201250Z 24008KT 10SM M02/M02 A2992 RMK AO2 T10171017", "240 8 - -1.7/-1.7 1013.2"],
  ["KABC 201250Z 24008KT 10SM 19/ A2992 RMK AO2 T0194", "240 8 - 19.4/- 1013.2"],
  ["KABC 201250Z 24008KT 10SM M00/M05 A2992 RMK AO2 T10001050", "240 8 - 0/-5 1013.2"],
  // Pressure: inches in hundredths or whole hectopascals (FMH-1 12.6.11; FM 15 15.11).
  ["KABC 201250Z 24008KT 10SM 19/07 A3034", "240 8 - 19/7 1027.4"],
  ["KABC 201250Z 24008KT 10SM 19/07 A2890", "240 8 - 19/7 978.7"],
  ["EGLL 201250Z 24008KT 9999 19/07 Q0998", "240 8 - 19/7 998"],
  ["EGLL 201250Z 24008KT 9999 19/07 Q////", "240 8 - 19/7 -"],
  ["EGLL 201250Z 24008KT 9999 19/07", "240 8 - 19/7 -"],
  ["MMMX 201250Z 24008KT 9999 19/07 A2992 Q1013", "240 8 - 19/7 1013.2"],
  ["RJTT 201250Z 24008KT 9999 FEW020 19/07 Q1012 RMK 1CU020 A2990", "240 8 - 19/7 1012"],
  // Present weather (FMH-1 12.6.8): a thunderstorm here or in the vicinity; not one of the past hour or of the trend.
  [`EGLL 201250Z 24008KT 9999 TS FEW020CB 10/05 Q1012`, `240 8 - ${REST} T`],
  [`EGLL 201250Z 24008KT 5000 TSRA SCT020CB 10/05 Q1012`, `240 8 - ${REST} T`],
  [`EGLL 201250Z 24008KT 5000 -TSRA SCT020CB 10/05 Q1012`, `240 8 - ${REST} T`],
  [`EGLL 201250Z 24008KT 2000 +TSRAGR SCT020CB 10/05 Q1012`, `240 8 - ${REST} T`],
  [`EGLL 201250Z 24008KT 9999 VCTS SCT020CB 10/05 Q1012`, `240 8 - ${REST} T`],
  [`EGLL 201250Z 24008KT 2000 TSGS BR SCT020CB 10/05 Q1012`, `240 8 - ${REST} T`],
  [`EGLL 201250Z 24008KT 2000 TSSN SCT020CB 10/05 Q1012`, `240 8 - ${REST} T`],
  [`EGLL 201250Z AUTO 24008KT 5000 TSUP SCT020 10/05 Q1012`, `240 8 - ${REST} T`],
  [`EGLL 201250Z 24008KT 9999 RETS SCT020CB 10/05 Q1012`, `240 8 - ${REST}`],
  [`EGLL 201250Z 24008KT 9999 SHRA SCT020CB 10/05 Q1012`, `240 8 - ${REST}`],
  [`EGLL 201250Z 24008KT 9999 SCT020CB 10/05 Q1012`, `240 8 - ${REST}`],
  [`EGLL 201250Z 24008KT 0800 FZFG VV002 10/05 Q1012`, `240 8 - ${REST}`],
  [`EGLL 201250Z 24008KT ${BODY} TEMPO 2000 +TSRA`, `240 8 - ${REST}`],
  [`EGLL 201250Z 24008KT ${BODY} TEMPO 30020G40KT 2000 +TSRA`, `240 8 - ${REST}`],
  [`EGLL 201250Z 24008KT ${BODY} BECMG FM1330 30020KT`, `240 8 - ${REST}`],
  [`EGLL 201250Z 24008KT ${BODY} NOSIG`, `240 8 - ${REST}`],
  // Lightning in the remarks (FMH-1 12.7.1.j): DSNT is beyond ten miles.
  ["KABC 201250Z 24008KT 10SM SCT020CB 10/05 A2992 RMK AO2 FRQ LTGICCG OHD", "240 8 - 10/5 1013.2 T"],
  ["KABC 201250Z 24008KT 10SM SCT020CB 10/05 A2992 RMK AO2 OCNL LTG VC E", "240 8 - 10/5 1013.2 T"],
  ["KABC 201250Z 24008KT 10SM SCT020CB 10/05 A2992 RMK AO2 LTG DSNT W", "240 8 - 10/5 1013.2"],
  ["KABC 201250Z 24008KT 10SM SCT020CB 10/05 A2992 RMK AO2 CB DSNT W MOV E", "240 8 - 10/5 1013.2"],
  // Headings: type, correction, automatic, small letters, "=" at the end, line breaks.
  [`METAR EGLL 201250Z 24008KT ${BODY}=`, `240 8 - ${REST}`],
  [`SPECI EGLL 201250Z 24008KT ${BODY}`, `240 8 - ${REST}`],
  [`METAR COR EGLL 201250Z 24008KT ${BODY}`, `240 8 - ${REST}`],
  [`METAR EGLL 201250Z COR 24008KT ${BODY}`, `240 8 - ${REST}`],
  [`EGLL COR 201250Z 24008KT ${BODY}`, `240 8 - ${REST}`],
  [`CYYZ 201250Z CCA 24008KT ${BODY}`, `240 8 - ${REST}`],
  [`EGLL 201250Z AUTO 24008KT 9999 // ////// 10/05 Q1012`, `240 8 - ${REST}`],
  [`K1A2 201250Z AUTO 24008KT 10SM CLR 10/05 A2992`, "240 8 - 10/5 1013.2"],
  ["metar egll 201250z 24008g20kt 9999 few020 10/05 q1012", `240 8 20 ${REST}`],
  ["egll 201250z 05005mps cavok m03/m05 q1012", "50 9.7 - -3/-5 1012"],
  [`METAR\nEGLL 201250Z\n24008KT ${BODY}`, `240 8 - ${REST}`],
  [`  EGLL   201250Z  24008KT   ${BODY}  `, `240 8 - ${REST}`],
  [`SAUK31 EGRR 201250\nMETAR EGLL 201250Z 24008KT ${BODY}=`, `240 8 - ${REST}`],
  [`2026/06/20 12:50\nEGLL 201250Z 24008KT ${BODY}`, `240 8 - ${REST}`],
  // Visibility, runways, sea and state of the runway do not disturb the rest.
  ["KABC 201250Z 24008KT 1 1/2SM R36/2600FT BR 10/05 A2992", "240 8 - 10/5 1013.2"],
  ["KABC 201250Z 24008KT M1/4SM FG VV001 10/10 A2992", "240 8 - 10/10 1013.2"],
  ["EGLL 201250Z 24008KT 4000 1200SW R27L/0375N R09R/P1500U FG 10/05 Q1012", `240 8 - ${REST}`],
  ["ENZV 201250Z 24008KT CAVOK 10/05 Q1012 W09/S4", `240 8 - ${REST}`],
  ["ENGM 201250Z 24008KT CAVOK 10/05 Q1012 WS R27L R27L/521595", `240 8 - ${REST}`],
  // Text behind the report belongs to another day or another field.
  [`EGLL 201250Z 24008KT ${BODY} TAF EGLL 201100Z 2012/2118 30015G25KT 9999 SCT030`, `240 8 - ${REST}`],
  [`EGLL 201250Z 24008KT ${BODY}\nTAF AMD EGLL 201100Z 2012/2118 30015G25KT TX12/2015Z`, `240 8 - ${REST}`],
  [`EGLL 201250Z 24008KT ${BODY} EGLL 201100Z 2012/2118 30015G25KT`, `240 8 - ${REST}`],
  [`EGLL 201250Z 24008KT ${BODY} METAR EGLL 201220Z 30020KT 9999 M03/M05 Q0992`, `240 8 - ${REST}`],
  [`EGLL 201250Z 24008KT ${BODY}= EGKK 201220Z 30020KT 9999 M03/M05 Q0992=`, `240 8 - ${REST}`],
  [`EGLL 201250Z 24008KT ${BODY}\nEGKK 201250Z 30020KT 9999 M03/M05 Q0992`, `240 8 - ${REST}`],
  [`EGLL 201250Z 24008KT ${BODY}\nSPECI EGLL 201235Z VRB20G45KT 9999 +TSRA`, `240 8 - ${REST}`],
  ["EGLL 201250Z 24008KT 9999 Q1012\nEGLL 191250Z 30020KT 9999 M03/M05 Q0992", "240 8 - -/- 1012"],
  [`METAR EGLL 201250Z 24008KT 9999 10/05\nMETAR EGLL 201220Z 30020KT 9999 M03/M05 Q0992`, "240 8 - 10/5 -"],
];

const REFUSED: readonly [text: string, fault: object][] = [
  ["", { is: "unreadable" }],
  ["24008KT 9999 10/05 Q1012", { is: "unreadable" }],
  ["EGLL 24008KT 9999 10/05 Q1012", { is: "unreadable" }],
  ["EGLL 201250Z NIL=", { is: "unreadable" }],
  ["TAF EGLL 201100Z 2012/2118 30015G25KT 9999 SCT030", { is: "unreadable" }],
  ["EGLL 201100Z 2012/2118 30015G25KT 9999 SCT030", { is: "unreadable" }],
  [`EGLL 201250Z 24008KT 30020KT ${BODY}`, { is: "twice", part: "wind" }],
  ["EGLL 201250Z 24008KT 9999 10/05 M03/M05 Q1012", { is: "twice", part: "temperature" }],
  ["EGLL 201250Z 24008KT 9999 10/05 Q1012 Q0992", { is: "twice", part: "qnh" }],
  ["KABC 201250Z 24008KT 10SM 10/05 A2992 Q0992", { is: "twice", part: "qnh" }],
  ["KABC 201250Z 24008KT 10SM 10/05 A2992 RMK T00311050", { is: "twice", part: "temperature" }],
  [`EGLL 201220Z 24008KT ${BODY}\nEGLL 201250Z 30020KT ${BODY}`, { is: "twice", part: "observed" }],
  [`EGLL 201250Z 37008KT ${BODY}`, { is: "impossible", part: "direction", value: 370 }],
  [`EGLL 201250Z 24008KT 200V380 ${BODY}`, { is: "impossible", part: "direction", value: 380 }],
  [`EGLL 201250Z 240160KT ${BODY}`, { is: "impossible", part: "wind", value: 160 }],
  [`EGLL 201250Z 24008G08KT ${BODY}`, { is: "impossible", part: "gust", value: 8 }],
  ["EGLL 201250Z 24008KT 9999 10/12 Q1012", { is: "impossible", part: "dewPoint", value: 12 }],
  ["EGLL 201250Z 24008KT 9999 10/05 Q0700", { is: "impossible", part: "qnh", value: 700 }],
];

const part = (value: number | null) => (value === null ? "-" : String(value));

function reading(text: string): string {
  const read = readFieldReport(text, NOW, 3_600_000);
  if (!read.ok) return JSON.stringify(read.fault);
  const { fromDeg, swing, windKt, gustKt, temperatureC, dewPointC, qnhHpa, thunder } = read.value;
  return [
    fromDeg === null ? "---" : String(fromDeg),
    ...(swing ? [swing.join("-")] : []),
    part(windKt),
    part(gustKt),
    `${part(temperatureC)}/${part(dewPointC)}`,
    part(qnhHpa),
    ...(thunder ? ["T"] : []),
  ].join(" ");
}

describe("reports by their code forms", () => {
  it.each(READ)("[MOD-65, WEA-9, WEA-11] %s", (text, expected) => {
    expect(reading(text)).toBe(expected);
  });

  it.each(REFUSED)("[MOD-65, WEA-3, WEA-9] is refused: %s", (text, fault) => {
    expect(readFieldReport(text, NOW, 3_600_000)).toEqual({ ok: false, fault });
  });

  it("[MOD-65] at least a hundred reports are compared", () => {
    expect(new Set(READ.map(([text]) => text)).size).toBeGreaterThanOrEqual(100);
  });
});
