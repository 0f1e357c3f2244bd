/** Types of test oracles that ship none: only what the tests call. */

declare module "ml-regression-theil-sen" {
  export class TheilSenRegression {
    constructor(x: readonly number[], y: readonly number[]);
    slope: number;
    intercept: number;
  }
}

declare module "jstat" {
  const jStat: {
    weibull: {
      cdf(x: number, scale: number, shape: number): number;
      mean(scale: number, shape: number): number;
      variance(scale: number, shape: number): number;
    };
    chisquare: { cdf(x: number, degrees: number): number };
    gammafn(x: number): number;
  };
  export default { jStat };
}

declare module "psychrolib" {
  const psychrolib: {
    SetUnitSystem(system: number): void;
    SI: number;
    GetStandardAtmPressure(altitude: number): number;
    GetStandardAtmTemperature(altitude: number): number;
    GetHumRatioFromTDewPoint(dewPoint: number, pressure: number): number;
    GetMoistAirDensity(temperature: number, humidityRatio: number, pressure: number): number;
  };
  export default psychrolib;
}

declare module "jsts/org/locationtech/jts/io/WKTReader.js" {
  /** Geometries have these methods once monkey.js is loaded. */
  export interface Shape {
    distance(other: Shape): number;
    intersects(other: Shape): boolean;
    covers(other: Shape): boolean;
    getArea(): number;
    isValid(): boolean;
    relate(other: Shape, pattern: string): boolean;
  }
  export default class WKTReader {
    read(text: string): Shape;
  }
}

declare module "jsts/org/locationtech/jts/monkey.js";
