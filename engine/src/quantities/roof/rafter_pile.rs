//! Rows of the poles of straight rafters: which lies where, how thick and heavy it is as cut, how deep its seats are.

use super::super::line::bind;
use super::places;
use super::rafter_places::{DEEPEST, ENDS};
use crate::house::{PilePole, RafterPile, Rafters, Roof};
use crate::reason::Answer;
use crate::roof::{self, poles};
use crate::row::Rows;
use crate::units::{Length, Mass, Volume};

/// The rows; hands back the thinnest that any rafter is over its low seat, and the row that says so.
pub(super) fn walk(
    roof: &Roof,
    (rafters, pile): (&Rafters, &RafterPile),
    seat: Length,
    rows: &mut Rows,
) -> (Length, &'static str) {
    places::of_pile(&pile.pile, rows);
    for (weight, title) in pile.weights.iter().zip(["waste", "bow to the side"]) {
        rows.known(format!("what a millimetre of {title} counts"), weight);
    }
    chosen(pile, rows);
    let poles: Vec<Placed<'_>> = (0..rafters.places.len()).filter_map(|place| Placed::of(pile, place)).collect();
    for pole in &poles {
        pole.sizes(rows);
        pole.weight(roof, rows);
    }
    places::teams(&pile.alone, rows);
    let all = |noun: &str| poles.iter().map(|pole| pole.path(noun)).collect::<Vec<String>>();
    places::wood_of_all(&all("wood"), &all("mass"), rows);
    envelope(&poles, rows);
    let [low, high] = [0, 1].map(|end| seats(&poles, end, seat, rows));
    deepest(&poles, [low, high], seat, rows);
    (low, AT_SEAT[0])
}

const AT_SEAT: [&str; 2] = ["roof.rafters.low-at-seat", "roof.rafters.high-at-seat"];

/// Adds what the choice of poles leans on.
fn of_the_pile<T>(mut answer: Answer<T>, pile: &RafterPile, rows: &Rows) -> Answer<T> {
    for pole in PilePole::of_each_kind(&pile.pile) {
        for known in [&pole.length, &pole.bow[1]] {
            answer = bind(answer, rows, &known.path);
        }
    }
    for weight in &pile.weights {
        answer = bind(answer, rows, &weight.path);
    }
    (0..pile.laid.len()).fold(answer, |answer, place| bind(answer, rows, &Rafters::path(place, "cut-length")))
}

fn chosen(pile: &RafterPile, rows: &mut Rows) {
    let cost = of_the_pile(roof::rafter_choice(Length::mm(pile.cost_mm)), pile, rows);
    rows.add("poles.choice.cost", "what the choice of poles costs; no choice from this pile costs less", cost);
    for (place, laid) in pile.laid.iter().enumerate() {
        let number = of_the_pile(poles::pole_of_the_pile(laid.pole as u64 + 1), pile, rows).without("number");
        let way = if laid.is_turned { ", thin end low" } else { "" };
        let title = format!("rafter {}: {}{way}, counted in the pile", place + 1, pile.pile[laid.pole].tag);
        rows.add(Rafters::path(place, "pole"), title, number);
    }
}

/// The pole of a place.
struct Placed<'a> {
    place: usize,
    of: &'a PilePole,
    is_turned: bool,
    cut: poles::Pole,
}

impl<'a> Placed<'a> {
    fn of(pile: &'a RafterPile, place: usize) -> Option<Placed<'a>> {
        let laid = pile.laid.get(place)?;
        let (of, cut) = (pile.pile.get(laid.pole)?, *pile.cut.get(place)?);
        Some(Placed { place, of, is_turned: laid.is_turned, cut })
    }

    fn path(&self, noun: &str) -> String {
        Rafters::path(self.place, noun)
    }

    fn who(&self) -> String {
        format!("rafter {}, {}", self.place + 1, self.of.tag.replace('-', " "))
    }

    fn sizes(&self, rows: &mut Rows) {
        let who = self.who();
        let (thick, thin) = (&self.of.butt, &self.of.tip);
        let [low, high] = if self.is_turned { [thin, thick] } else { [thick, thin] };
        let low_end = low.iter().fold(roof::end_as_cut(self.cut.butt), |answer, one| bind(answer, rows, &one.path));
        let low_end = bind(low_end, rows, &self.path("pole"));
        rows.add(self.path(ENDS[0]), format!("{who}: diameter at its low end"), low_end);
        // Only its high end is cut.
        let all = low.iter().chain(high).chain([&self.of.length]);
        let high_end = all.fold(roof::end_as_cut(self.cut.tip), |answer, one| bind(answer, rows, &one.path));
        let high_end = bind(bind(high_end, rows, &self.path("pole")), rows, &self.path("cut-length"));
        rows.add(self.path(ENDS[1]), format!("{who}: diameter at its high end"), high_end);
    }

    fn weight(&self, roof: &Roof, rows: &mut Rows) {
        let (who, cut) = (self.who(), &self.cut);
        let wood = poles::tapered_volume(cut.butt, cut.tip, cut.length)
            .from("butt", self.path("low"))
            .from("tip", self.path("high"))
            .from("length", self.path("cut-length"));
        let wood: Volume = rows.add(self.path("wood"), format!("{who}: wood as cut"), wood);
        let mass = roof::pole_mass(wood, roof.density.value).from("volume", self.path("wood"));
        let mass = mass.from("density", "poles.density");
        let mass: Mass = rows.add(self.path("mass"), format!("{who}: mass as lifted"), mass);
        // The thick end stays down.
        let balance = poles::balance_point(cut.butt.max(cut.tip), cut.butt.min(cut.tip), cut.length).value;
        let lift = poles::mass_at_end(mass, balance, cut.length).from("mass", self.path("mass"));
        let lift = lift.without("to balance point").without("length");
        let lift = bind(bind(lift, rows, &self.path("low")), rows, &self.path("high"));
        rows.add(self.path("lift"), format!("{who}: in the hands at its thin end, the other down"), lift);
    }

    fn over_seat(&self, end: usize, rows: &Rows) -> Length {
        let tail: Length = rows.value(&self.path(&format!("{}-tail", ENDS[end]))).unwrap_or(Length::ZERO);
        self.cut.diameter(if end == 0 { tail } else { self.cut.length - tail })
    }

    /// Adds what makes its diameter over a seat.
    fn tapers<T>(&self, answer: Answer<T>, end: usize, rows: &Rows) -> Answer<T> {
        let measured = self.of.butt.iter().chain(&self.of.tip).chain([&self.of.length]);
        let answer = measured.fold(answer, |answer, known| bind(answer, rows, &known.path));
        let answer = bind(answer, rows, &self.path(&format!("{}-tail", ENDS[end])));
        // Marks are measured from the low end, which nothing is cut off.
        let answer = if end == 1 { bind(answer, rows, &self.path("cut-length")) } else { answer };
        bind(answer, rows, &self.path("pole"))
    }
}

/// How thin and how heavy the rafters are at the most: what strength is counted with.
fn envelope(poles: &[Placed<'_>], rows: &mut Rows) {
    for (end, name) in ENDS.iter().enumerate() {
        let Some((pole, thin)) = thinnest(poles, |pole| [pole.cut.butt, pole.cut.tip][end]) else { return };
        let thin = bind(roof::thinnest_end(thin), rows, &pole.path(name));
        rows.add(
            format!("roof.rafters.{name}-thinnest"),
            format!("thinnest of the rafters at their {name} ends"),
            thin,
        );
    }
    let masses = rows.parts::<Mass>(poles.iter().map(|pole| pole.path("mass")));
    let Some((_, path, mass)) = masses.into_iter().max_by(|a, b| a.2.in_kg().total_cmp(&b.2.in_kg())) else { return };
    let heaviest = bind(roof::heaviest(mass), rows, &path);
    rows.add("roof.rafters.heaviest", "mass of the heaviest of the rafters", heaviest);
}

fn thinnest<'a, 'b>(poles: &'a [Placed<'b>], of: impl Fn(&Placed<'b>) -> Length) -> Option<(&'a Placed<'b>, Length)> {
    let all = poles.iter().map(|pole| (pole, of(pole)));
    all.min_by(|one, other| one.1.in_m().total_cmp(&other.1.in_m()))
}

/// How deep each pole is let in at an end, so that all tops lie in one plane; hands back the thinnest there.
fn seats(poles: &[Placed<'_>], end: usize, seat: Length, rows: &mut Rows) -> Length {
    let name = ENDS[end];
    let Some((least, thin)) = thinnest(poles, |pole| pole.over_seat(end, rows)) else { return Length::ZERO };
    let found = least.tapers(roof::thinnest_over_seat(thin), end, rows);
    rows.add(AT_SEAT[end], format!("thinnest of the rafters over their {name} seats"), found);
    for pole in poles {
        let deep = roof::seat_of_thicker(seat, thin, pole.over_seat(end, rows)).from("seat", "roof.seat");
        let deep = if pole.place == least.place {
            bind(deep.without("thinnest"), rows, &pole.path("pole"))
        } else {
            pole.tapers(deep.from("thinnest", AT_SEAT[end]), end, rows)
        };
        rows.add(pole.path(&format!("{name}-seat")), format!("{}: depth of its {name} seat", pole.who()), deep);
    }
    thin
}

/// The deepest seat of all, of the thickness of its pole there.
fn deepest(poles: &[Placed<'_>], thin: [Length; 2], seat: Length, rows: &mut Rows) {
    let one = |pole: &Placed<'_>, end: usize| {
        let thick = pole.over_seat(end, rows);
        (seat + thick - thin[end], thick, pole.path(&format!("{}-seat", ENDS[end])), AT_SEAT[end])
    };
    let all = poles.iter().flat_map(|pole| [0, 1].map(|end| one(pole, end)));
    let Some((deep, thick, path, at)) = all.max_by(|a, b| (a.0 / a.1).total_cmp(&(b.0 / b.1))) else { return };
    // How thick it is there follows from how deep it is cut.
    let deepest = roof::deepest_seat(deep, thick).from("seat", path).without("diameter");
    let deepest = bind(bind(deepest, rows, at), rows, "roof.seat");
    rows.add(DEEPEST, "deepest seat of a rafter, of its thickness there", deepest);
}
