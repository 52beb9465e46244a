import styles from "./LogPicture.module.css";
import { Scrolling } from "./Scrolling";

/** The plain element: the page server's own would fetch the picture itself, and has not signed in. */
const Img = "img";

interface Props {
  readonly file: string;
  readonly kind: string;
  readonly name: string;
}

/** A picture of a log as it came, in a box that scrolls; a PDF as a link. */
export function LogPicture({ file, kind, name }: Props) {
  const address = `/files/${file}/picture`;
  if (kind === "pdf")
    return (
      <p>
        <a href={address}>Open the PDF</a>: it stands in no page, because it may hold more than pictures.
      </p>
    );
  return (
    <figure className={styles.picture}>
      <Scrolling label="The picture">
        <Img src={address} alt={`The log ${name} as it was photographed`} />
      </Scrolling>
      <figcaption>
        <a href={address}>The picture alone, as large as it is</a>
        {kind === "heic" ? " (HEIC: some browsers can only save it)" : ""}
      </figcaption>
    </figure>
  );
}
