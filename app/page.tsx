import { redirect } from "next/navigation";
import { signedIn } from "./asking";

/** Leads to where the person's work begins. */
export default async function FirstPage() {
  const { me } = await signedIn("/");
  redirect(me.site === null ? "/compare" : `/sites/${me.site}`);
}
