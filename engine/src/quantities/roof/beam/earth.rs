//! Rows of what the earth under a bond beam bears beneath each pole, of what bricks of the cob bore.

use super::Laid;
use super::seats::Pressed;
use crate::quantities::line::bind;
use crate::quantities::uneven::bind_once;
use crate::reason::Answer;
use crate::roof::beam as ring;
use crate::row::Rows;
use crate::units::Pressure;

/// What bricks of the wall's cob bore at the least.
const STRENGTH: &str = "tests.cob.compression";

impl Laid<'_> {
    /// The pressure once the earth has given a little, and how much that is of what bricks bore.
    pub(super) fn eased(&self, place: usize, (on, pressed): (&str, &[Pressed]), rows: &mut Rows) {
        let share = self.row(place, &self.on.factors.noun("earth"));
        let words = "pressure on the earth under the bond beam, of what bricks of the cob bore at the least";
        let pressures = pressed.iter().map(|at| (at, self.eased_by(place, at).value));
        let most = pressures.max_by(|(_, one), (_, other)| one.in_pa().total_cmp(&other.in_pa())).map(|(at, _)| at);
        let Some(most) = most.filter(|_| pressed.iter().all(|at| self.is_on(at))) else {
            let why = if pressed.is_empty() { "it never presses" } else { "its load falls off the beam" };
            return rows.not_known(share, format!("{on}: {words} ({why})"));
        };
        let title =
            format!("{on}: pressure on the earth under the bond beam once it has given, under {}", self.words(most));
        let pressure = rows.add(self.row(place, "eased"), title, self.eased_row(place, most, rows));
        let Some(strength) = rows.value::<Pressure>(STRENGTH) else {
            return rows.not_known(share, format!("{on}: {words} (no bricks were crushed: [tests.bricks])"));
        };
        let used =
            ring::earth_used(pressure, strength).from("pressure", self.row(place, "eased")).from("strength", STRENGTH);
        rows.add(share, format!("{on}: {words}"), used);
    }

    fn eased_by(&self, place: usize, at: &Pressed) -> Answer<Pressure> {
        let (width, height) = (self.beam.width.value, self.beam.height.value);
        ring::eased_pressure(width, height, at.force, self.on.flats[place], at.off(height))
    }

    fn eased_row(&self, place: usize, at: &Pressed, rows: &Rows) -> Answer<Pressure> {
        let pressure = self
            .eased_by(place, at)
            .from("width", self.beam.width.path.as_str())
            .from("height", self.beam.height.path.as_str());
        let pressure =
            self.on.seats[place].shape.iter().fold(pressure, |pressure, path| bind_once(pressure, rows, path));
        let pressure = if at.slips { bind(pressure, rows, super::feet::FRICTION) } else { pressure };
        self.loaded(pressure, (place, at), rows)
    }
}
