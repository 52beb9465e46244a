/** Where signals are told as recorded, though what came last was not looked through: true whoever looks, and when. */
export const BEHIND =
  "Not everything that was sent has been looked through for change yet, so signals may still be added here or change.";
