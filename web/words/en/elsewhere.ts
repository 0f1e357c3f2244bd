/** The page of a window whose person is open in another one. */
export const elsewhere = {
  title: (name: string) => `${name} is open in another tab`,
  what: "This person is signed in in another tab of this device. Only one tab can send. Go on in that tab, or take over here. What waits to be sent moves to this tab.",
  take: "Take over here",
  taking: "Taking over…",
};
