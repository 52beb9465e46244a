import { expect, test } from "vitest";
import { formOf } from "../../app/posted";
import { single } from "../../app/single";

const posted = (headers: Record<string, string>, body: string) =>
  new Request("https://evendry.example/send/arrive", { method: "POST", headers, body });

test.each([
  ["plain text", { "content-type": "text/plain" }, "hello"],
  ["JSON", { "content-type": "application/json" }, "{}"],
  ["a form cut off on the way", { "content-type": "multipart/form-data; boundary=x" }, "--x\r\nContent-Dispo"],
])("%s where a form is awaited is answered with a sentence", async (_what, headers, body) => {
  await expect(formOf(posted(headers, body))).rejects.toMatchObject({
    code: "BAD_REQUEST",
    message: "The form did not arrive whole. Go back and send it again.",
  });
});

test("a form that came whole is read", async () => {
  const form = await formOf(posted({ "content-type": "application/x-www-form-urlencoded" }, "site=OJ"));
  expect(form.get("site")).toBe("OJ");
});

test("an address that asks a thing twice asks it the first time", () => {
  expect(single({ month: ["2031-04", "2031-05"], said: "x", gone: undefined })).toEqual({
    month: "2031-04",
    said: "x",
    gone: undefined,
  });
});
