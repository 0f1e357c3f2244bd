/** Weather: a report before it is sent, lightning entered by touch, and the current state of both. */
export const air = {
  section: "Weather and lightning",
  weatherKey: "Weather",
  lightningKey: "Lightning",
  notRead: "Wind not read yet",
  report: "Weather report",
  stopsFar: (miles: number, until: string, left: string) =>
    `Lightning ${miles} mi away: no work until ${until}, ${left} left`,
  stopsUnknown: (until: string, left: string) =>
    `Lightning at an unknown distance: no work until ${until}, ${left} left`,
  wind: (knots: number) => `Wind ${knots} kt`,
  windFrom: (degrees: number, knots: number) => `Wind from ${degrees}°, ${knots} kt`,
  gusts: (knots: number) => `gusts ${knots} kt`,
  qnh: (figure: string) => `QNH ${figure}`,
  flash: "Lightning seen",
  flashThunder: (seconds: number) => `Lightning, thunder after ${seconds} s`,
  flashFar: (miles: number) => `Lightning, ${miles} mi away`,
};
