export default function FirstPage() {
  return (
    <main>
      <h1>Evendry</h1>
      <p>Reads the logs of drying sites and answers with figures that can be believed.</p>
    </main>
  );
}
