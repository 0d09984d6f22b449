// The floor: the same small calculation by hand, the friction of air in a straight pipe after Colebrook.
const RHO = 1.23, MU = 1.8e-5, ROUGHNESS = 1.5e-6, BORE = 0.1023, LENGTH = 10.06; // kg/m3, Pa s, m

function factor(re) {
  let x = 6;
  for (let i = 0; i < 50; i++) {
    const inner = ROUGHNESS / BORE / 3.7 + (2.51 * x) / re;
    const change = (x + 2 * Math.log10(inner)) / (1 + (2 * 2.51 * Math.LOG10E) / (re * inner));
    x -= change;
    if (Math.abs(change) < 1e-14 * x) break;
  }
  return 1 / x ** 2;
}

const field = document.getElementById("flow");
const work = () => {
  const speed = (Number.parseFloat(field.value) * 0.000471947) / ((Math.PI * BORE ** 2) / 4);
  const loss = (factor((RHO * speed * BORE) / MU) * LENGTH * RHO * speed ** 2) / (2 * BORE);
  document.getElementById("answer").textContent = `${(loss / 249.089).toFixed(4)} in WC`;
};
field.addEventListener("input", work);
work();
