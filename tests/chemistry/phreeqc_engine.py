"""The outside engine of the acid–base tests: PHREEQC (USGS) in process, through phreeqpython.

Every acid, carbonate, phosphate and borate too, is given to PHREEQC as an element of its own with
our constants, and H+, OH-, Na+, K+ and Cl- are defined again without `-gamma`, which gives them
Davies; uncharged species get log10 gamma = 0.1 I without being asked. So neither the ion pairs of
the stock database (NaCO3-, NaHPO4-) nor its ion-size coefficients enter: against those the two
engines part by up to 0.19, which says something about the database and nothing about the solver.
`stock=True` leaves the database as it is, with its own carbonate, phosphate, borate and sulfate.
"""

from __future__ import annotations

from collections.abc import Iterable

from workbench.chemistry.activity import DAVIES
from workbench.chemistry.system import AcidBase, Solution

STOCK_NAMES = {
    "carbonic": "C(4)",
    "phosphoric": "P",
    "boric": "B",
    "sulfuric": "S(6)",
    "ammonia": "N(-3)",
}
STRONG_NAMES = {1: "Na", -1: "Cl"}
NEUTRAL = "Zx"
GUESSES = (7.0, 3.5, 10.5, 2.0, 12.0)


class Phreeqc:
    """Answer the pH of solutions of a fixed list of acids and bases."""

    def __init__(self, acids: Iterable[AcidBase], *, stock: bool = False) -> None:
        import phreeqpython

        self.stock = stock
        self.engine = phreeqpython.PhreeqPython(database="phreeqc.dat").ip
        ours = [acid for acid in acids if not (stock and acid.key in STOCK_NAMES)]
        self.names = {acid: f"Zq{_letters(number)}" for number, acid in enumerate(ours)}
        self.engine.run_string(self._definitions())

    def ph(self, solution: Solution) -> float:
        """Return the pH at which PHREEQC finds the charges balanced."""
        for guess in GUESSES:
            try:
                self.engine.run_string(self.text(solution, guess))
            except Exception:
                continue
            return float(self.engine.get_ph(1))
        raise ArithmeticError("PHREEQC did not converge")

    def ph_of_all(self, solutions: list[Solution]) -> list[float]:
        """Return the pH of many solutions handed over in one run."""
        texts = [self.text(each, number=at) for at, each in enumerate(solutions, start=1)]
        self.engine.run_string("\n".join(text.removesuffix("END") for text in texts) + "END")
        return [float(self.engine.get_ph(at)) for at in range(1, len(solutions) + 1)]

    def state(self, solution: Solution) -> tuple[float, float, dict[str, float]]:
        """Return pH, ionic strength and the molality of every species, as PHREEQC finds them."""
        ph = self.ph(solution)
        return ph, float(self.engine.get_mu(1)), dict(self.engine.get_species_molalities(1))

    def species(self, acid: AcidBase) -> list[str]:
        """Return PHREEQC's names of the protonation states, most protonated first."""
        name, last = self.names[acid], len(acid.pkas)
        held = [f"{name}H{last - lost}{_sign(acid.charge - lost)}" for lost in range(last)]
        return [*held, f"{name}{_sign(acid.charges[-1])}"]

    def text(self, solution: Solution, guess: float = GUESSES[0], number: int = 1) -> str:
        """Return a solution in PHREEQC's input language."""
        lines = [f"SOLUTION {number}", "units mol/kgw", "temp 25", f"pH {guess} charge"]
        for acid, molality in solution.totals:
            if molality > 0:
                name = self.names.get(acid) or STOCK_NAMES[acid.key]
                lines.append(f"{name} {molality!r}")
        strong: dict[str, float] = {}
        for ion in solution.strong:
            name = STRONG_NAMES[ion.charge]
            strong[name] = strong.get(name, 0.0) + ion.molality
        lines += [f"{name} {molality!r}" for name, molality in strong.items() if molality > 0]
        if solution.neutral:
            lines.append(f"{NEUTRAL} {solution.neutral!r}")
        return "\n".join([*lines, "END"])

    def _definitions(self) -> str:
        masters, species = ["SOLUTION_MASTER_SPECIES"], ["SOLUTION_SPECIES"]
        if not self.stock:
            species += ["H+ = H+", "log_k 0"]
            species += ["H2O = OH- + H+", f"log_k {-DAVIES.pkw}"]
            for ion in ("Na+", "K+", "Cl-"):
                species += [f"{ion} = {ion}", "log_k 0"]
        masters.append(f"{NEUTRAL} {NEUTRAL} 0 1 1")
        species += [f"{NEUTRAL} = {NEUTRAL}", "log_k 0"]
        for acid, name in self.names.items():
            base = f"{name}{_sign(acid.charges[-1])}"
            masters.append(f"{name} {base} 0 1 1")
            species += [f"{base} = {base}", "log_k 0"]
            bound = 0.0
            for protons, pka in enumerate(reversed(acid.pkas), start=1):
                bound += pka
                held = f"{name}H{protons}{_sign(acid.charges[-1] + protons)}"
                species += [f"{base} + {protons}H+ = {held}", f"log_k {bound!r}"]
        return "\n".join([*masters, *species, "END"])


def _letters(number: int) -> str:
    return chr(ord("a") + number // 26) + chr(ord("a") + number % 26)


def _sign(charge: int) -> str:
    return {-1: "-", 0: "", 1: "+"}.get(charge, f"{charge:+d}")
