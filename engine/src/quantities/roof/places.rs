//! Rows of a ring of measured poles: which lies where, how, its marks with their band, and the prop.

use super::super::line::bind;
use super::super::uneven::{bind_height, bind_line, bind_once};
use crate::house::{House, PilePole, Ring, Roof};
use crate::known::Known;
use crate::reason::Answer;
use crate::roof::poles::{self, Band};
use crate::row::Rows;
use crate::units::{Length, Mass, Volume};

pub(super) fn walk(house: &House, roof: &Roof, ring: &Ring, rows: &mut Rows) {
    known(ring, rows);
    seats(house, ring, rows);
    choice(ring, rows);
    for place in 0..ring.solved.sets.len() {
        laid(ring, place, rows);
    }
    planned(ring, rows);
    whole(ring, rows);
    for place in 0..ring.solved.sets.len() {
        marks(ring, place, rows);
        lifting(roof, ring, place, rows);
    }
    raising(house, ring, rows);
    // What boards, straps and the thrust of the wall do for a ring that has lost a pole is not computed.
    rows.not_known("roof.without.a-pole.spare", "poles that the ring may lose and still stand");
}

/// Notes every measure of a pile.
pub(super) fn of_pile(pile: &[PilePole], rows: &mut Rows) {
    for pole in PilePole::of_each_kind(pile) {
        let tag = if pole.is_measured { pole.tag.replace('-', " ") } else { "typical pole".to_owned() };
        for (end, diameters) in [("butt", &pole.butt), ("tip", &pole.tip)] {
            for (place, diameter) in diameters.iter().enumerate() {
                rows.known(format!("{tag}, diameter of its {end}, measure {}", place + 1), diameter);
            }
        }
        rows.known(format!("{tag}, length"), &pole.length);
        rows.known(format!("{tag}, its greatest bow"), &pole.bow[0]);
        rows.known(format!("{tag}, its bow square to that"), &pole.bow[1]);
    }
}

fn known(ring: &Ring, rows: &mut Rows) {
    of_pile(&ring.pile, rows);
    let titles = ["waste", "a notch other than wanted", "bow to the side"];
    for (weight, title) in ring.weights.iter().zip(titles) {
        rows.known(format!("what a millimetre of {title} counts"), weight);
    }
    rows.known("direction of the first corner of the eye, from the x axis", &ring.turned);
    rows.known("how deep a pole is let into the plate", &ring.seat);
    rows.known("what a crossing beds when the prop goes", &ring.bedding);
    rows.known("what the prop stands higher for the last pole", &ring.clearance);
    rows.known("how closely poles, plate and eye are measured", &ring.measured_to);
    for (place, seat) in ring.seats.iter().enumerate() {
        rows.known(format!("plate at place {}, above where it should be", place + 1), seat);
    }
}

/// Adds every measure of the pile, and what weighs them.
fn of_the_pile<T>(mut answer: Answer<T>, ring: &Ring, rows: &Rows) -> Answer<T> {
    for pole in PilePole::of_each_kind(&ring.pile) {
        for known in pole.butt.iter().chain(&pole.tip).chain([&pole.length, &pole.bow[1]]) {
            answer = bind(answer, rows, &known.path);
        }
    }
    for weight in &ring.weights {
        answer = bind(answer, rows, &weight.path);
    }
    for place in 0..ring.layout.rafters.len() {
        for noun in ["seat-x", "seat-y"] {
            answer = bind(answer, rows, &Ring::path(place, noun));
        }
    }
    answer = uneven_plate(answer, ring, rows);
    let around = ["roof.notch", "roof.eye", "roof.eave-offset", "roof.tip", "roof.seat"];
    around.iter().fold(answer, |answer, path| bind(answer, rows, path))
}

fn choice(ring: &Ring, rows: &mut Rows) {
    let cost = of_the_pile(poles::choice_cost(&ring.choice), ring, rows);
    rows.add("poles.choice.cost", "what the choice of poles costs", cost);
    let bound = of_the_pile(poles::choice_bound(&ring.choice), ring, rows);
    rows.add("poles.choice.bound", "what no choice from this pile can cost less than", bound);
    for (place, placed) in ring.choice.places.iter().enumerate() {
        let number = of_the_pile(poles::pole_of_the_pile(placed.pole as u64 + 1), ring, rows).without("number");
        let way = if placed.is_turned { ", thin end to the wall" } else { "" };
        let title = format!("place {}: {}{way}, counted in the pile", place + 1, ring.pole(place).tag);
        rows.add(Ring::path(place, "pole"), title, number);
    }
}

/// Adds what makes the plate other than level: on a level one only what was measured.
fn uneven_plate<T>(answer: Answer<T>, ring: &Ring, rows: &Rows) -> Answer<T> {
    if rows.find("wall.mean-height").is_none() {
        return ring.seats.iter().fold(answer, |answer, seat| bind(answer, rows, &seat.path));
    }
    let places = 0..ring.layout.rafters.len();
    places.fold(answer, |answer, place| bind(answer, rows, &Ring::path(place, "seat-level")))
}

/// Corners of the eye, and where each pole rests on the plate.
fn seats(house: &House, ring: &Ring, rows: &mut Rows) {
    let centre = house.wall.line.centre();
    for (noun, axis, at) in [("roof.centre-x", "x", centre.x), ("roof.centre-y", "y", centre.y)] {
        let middle = bind_line(poles::middle(Length::m(at)), house, rows);
        rows.add(noun, format!("middle of the house, {axis}"), middle);
    }
    for (place, rafter) in ring.layout.rafters.iter().enumerate() {
        let plan = |answer: Answer<Length>, rows: &Rows| {
            let inputs =
                ["roof.centre-x", "roof.centre-y", "roof.eye", "poles.count", "roof.plate-offset", "roof.turned"];
            inputs.iter().fold(bind_line(answer, house, rows), |answer, path| bind(answer, rows, path))
        };
        for (axis, noun) in ["seat-x", "seat-y"].into_iter().enumerate() {
            let at = plan(poles::seat_in_plan(rafter.support[axis]), rows);
            rows.add(Ring::path(place, noun), format!("seat of place {}, {}", place + 1, &noun[5..]), at);
        }
        let mut level = bind(poles::seat_level(rafter.support[2]), rows, "wall.bond-beam.height");
        let is_level = house.wall.top.is_level();
        level = if is_level { bind(level, rows, "wall.height") } else { bind_height(level, house, rows) };
        if let Some(seat) = ring.seats.get(place) {
            level = bind(level, rows, &seat.path);
        }
        if !is_level {
            level = bind(level, rows, &Ring::path(place, "seat-x"));
        }
        rows.add(Ring::path(place, "seat-level"), format!("top of the plate at place {}", place + 1), level);
    }
}

/// What lies in a place: sizes of its pole, its tail, its notch.
fn laid(ring: &Ring, place: usize, rows: &mut Rows) {
    let (pole, placed, rafter) = (ring.pole(place), &ring.choice.places[place], &ring.layout.rafters[place]);
    let of = |noun: &str| Ring::path(place, noun);
    let number = of("pole");
    let ends = if placed.is_turned { [&pole.tip, &pole.butt] } else { [&pole.butt, &pole.tip] };
    for ((noun, words), end) in [("butt", "at the wall"), ("tip", "at the eye")].into_iter().zip(ends) {
        let mean = poles::mean_diameter(end.iter().map(|one| one.value));
        let mean = end.iter().fold(mean, |mean, one| bind(mean, rows, &one.path));
        rows.add(of(noun), format!("place {}, diameter {words}", place + 1), bind(mean, rows, &number));
    }
    let bow = poles::set_upright(pole.bow[0].value).from("bow", pole.bow[0].path.as_str());
    rows.add(of("bow"), format!("place {}, bow upright", place + 1), bind(bow, rows, &number));
    let around = ["roof.eave-offset", "roof.plate-offset", "roof.centre-x", "roof.centre-y", "roof.turned", "roof.eye"];
    let out = around.iter().fold(poles::tail_in_plan(ring.tails[place]), |answer, path| bind(answer, rows, path));
    let out = bind(out, rows, "poles.count");
    rows.add(of("tail-in-plan"), format!("place {}, from its seat out to the eave in plan", place + 1), out);
    let below = ring.layout.below(place);
    let notch = poles::notch(rafter.notch);
    let notch = [number.clone(), Ring::path(below, "pole"), "roof.notch".into()]
        .iter()
        .fold(notch, |notch, path| bind(notch, rows, path));
    rows.add(of("notch"), format!("place {}, notch where it rests, in both poles together", place + 1), notch);
}

/// Adds all of which a ring is solved before any of its poles is up.
fn of_the_poles<T>(mut answer: Answer<T>, ring: &Ring, rows: &Rows) -> Answer<T> {
    for place in 0..ring.solved.sets.len() {
        for noun in ["butt", "tip", "bow", "seat-x", "seat-y", "tail-in-plan", "notch"] {
            answer = bind(answer, rows, &Ring::path(place, noun));
        }
    }
    bind(uneven_plate(answer, ring, rows), rows, "roof.seat")
}

/// Where the mark of each pole comes to lie with the prop in, and how far those that are up lie off that.
fn planned(ring: &Ring, rows: &mut Rows) {
    for (place, &level) in ring.planned.iter().enumerate() {
        let level = bind(of_the_poles(poles::planned_level(level), ring, rows), rows, "roof.clearance");
        let level = bind(level, rows, &Ring::path(place, "seat-level"));
        let title = format!("place {}, middle of its pole at its mark, the prop in, as planned", place + 1);
        rows.add(Ring::path(place, "planned-level"), title, level);
    }
    for (level, &place) in ring.raised.iter().zip(&ring.propped.order) {
        let title = format!("place {}, middle of its pole at its mark, the prop in, as measured", place + 1);
        let level_path = level.path.as_str();
        let measured = rows.known(title, level);
        let (planned, path) = (ring.planned[place], Ring::path(place, "planned-level"));
        let off = poles::off_plan(measured, planned).from("measured", level_path).from("planned", path);
        rows.add(Ring::path(place, "off-plan"), format!("place {}, higher than planned", place + 1), off);
    }
}

/// What the whole ring makes.
fn whole(ring: &Ring, rows: &mut Rows) {
    let mut pitch = of_the_poles(poles::mean_pitch(&ring.solved), ring, rows);
    // How deep a crossing beds is known when both of its poles are up.
    if ring.raised.len() > 1 {
        pitch = ring.raised.iter().fold(pitch, |pitch, level| bind(pitch, rows, &level.path));
        pitch = bind(pitch, rows, &Ring::path(0, "seat-level"));
    }
    rows.add("roof.ring.pitch", "mean pitch of the poles as they lie", pitch);
    let eye = poles::eye_size(&ring.solved);
    rows.add("roof.ring.eye", "radius of the eye through the contacts", bind(eye, rows, "roof.ring.pitch"));
    let level = bind(poles::eye_level(&ring.solved), rows, "roof.ring.pitch");
    let level = bind(level, rows, &Ring::path(0, "seat-level"));
    rows.add("roof.ring.eye-level", "level of the contacts round the eye, mean", level);
}

fn marks(ring: &Ring, place: usize, rows: &mut Rows) {
    let (set, rafter) = (&ring.solved.sets[place], &ring.layout.rafters[place]);
    let of = |noun: &str| Ring::path(place, noun);
    let on = format!("place {}", place + 1);
    let ring_of = |answer: Answer<Length>, rows: &Rows| bind(answer, rows, "roof.ring.pitch");
    let pitch = bind(poles::pole_pitch(set), rows, "roof.ring.pitch");
    rows.add(of("pitch"), format!("{on}, pitch of its pole"), pitch);
    let near = |band: &Band, rows: &Rows| {
        let answer = bind(poles::likely_error(band), rows, "poles.measured-to");
        bind(answer, rows, "roof.ring.pitch")
    };
    let tail = poles::tail(ring.tails[place], set.pitch).from("in plan", of("tail-in-plan")).from("pitch", of("pitch"));
    rows.add(of("tail"), format!("{on}, from the butt to the seat along its pole"), tail);
    let rest =
        rows.add(of("rest"), format!("{on}, mark where it rests, from its butt"), ring_of(poles::rest_mark(set), rows));
    rows.add(of("rest-band"), format!("{on}, how far off that mark may be"), near(&ring.bands.rest[place], rows));
    rows.add(of("carry"), format!("{on}, mark where it carries, from its butt"), ring_of(poles::carry_mark(set), rows));
    rows.add(of("carry-band"), format!("{on}, how far off that mark may be"), near(&ring.bands.carry[place], rows));
    for (noun, words, height) in [
        ("rest-level", "middle of its pole where it rests", poles::rest_height(set)),
        ("tip-level", "middle of its tip", poles::tip_height(set)),
    ] {
        let level = bind(ring_of(height, rows), rows, &of("seat-level"));
        rows.add(of(noun), format!("{on}, {words}"), level);
    }
    rows.add(of("tip-band"), format!("{on}, how far off that level may be"), near(&ring.bands.tip[place], rows));
    let above = ring.layout.above(place);
    for (noun, words, of_both) in [("rest-notch", "where it rests", place), ("carry-notch", "where it carries", above)]
    {
        let both = Ring::path(of_both, "notch");
        if let Some(depth) = rows.value::<Length>(&both) {
            let half = poles::half_notch(depth).from("notch", both);
            rows.add(of(noun), format!("{on}, notch in its pole {words}"), half);
        }
    }
    let cut = poles::cut_length(rest, rafter.beyond).from("rest", of("rest"));
    rows.add(
        of("cut-length"),
        format!("{on}, length to cut to"),
        bind(bind(cut, rows, "roof.tip"), rows, "roof.ring.pitch").without("beyond"),
    );
}

/// What a pole weighs, and what is in the hands at its tip.
fn lifting(roof: &Roof, ring: &Ring, place: usize, rows: &mut Rows) {
    let pole = &ring.layout.rafters[place].pole;
    let of = |noun: &str| Ring::path(place, noun);
    let on = format!("place {}", place + 1);
    let cut = rows.value::<Length>(&of("cut-length")).unwrap_or(pole.length);
    let sized =
        |answer: Answer<_>, length: &str| answer.from("butt", of("butt")).from("tip", of("tip")).from("length", length);
    let end = pole.diameter(cut);
    let volume = poles::tapered_volume(pole.butt, end, cut);
    let volume =
        bind(volume.from("butt", of("butt")).without("tip").from("length", of("cut-length")), rows, &of("tip"));
    let volume = rows.add(of("wood"), format!("{on}, wood of its pole"), volume);
    let mass =
        crate::roof::pole_mass(volume, roof.density.value).from("volume", of("wood")).from("density", "poles.density");
    let mass = rows.add(of("mass"), format!("{on}, mass of its pole, cut to length, as lifted"), mass);
    let balance = poles::balance_point(pole.butt, end, cut).without("tip");
    let balance = bind(sized(balance, &of("cut-length")), rows, &of("tip"));
    let balance = rows.add(of("balance"), format!("{on}, from its butt to where it balances"), balance);
    let hands = poles::mass_at_end(mass, balance, cut).from("mass", of("mass")).from("to balance point", of("balance"));
    rows.add(
        of("lift"),
        format!("{on}, in the hands at the tip of the cut pole while its butt stays down"),
        hands.from("length", of("cut-length")),
    );
}

/// What all poles make together: the longest, their wood and mass, how high the highest reaches.
pub(super) fn whole_of_poles(house: &House, ring: &Ring, rows: &mut Rows) {
    let places = 0..ring.layout.rafters.len();
    let all = |noun: &str| places.clone().map(|place| Ring::path(place, noun)).collect::<Vec<String>>();
    let lengths = rows.parts::<Length>(all("cut-length"));
    if let Some((_, path, longest)) = lengths.into_iter().max_by(|a, b| a.2.in_m().total_cmp(&b.2.in_m())) {
        let longest = bind(poles::longest_cut(longest), rows, &path);
        rows.add("roof.poles.cut-length", "longest of the poles, cut to length", longest);
    }
    wood_of_all(&all("wood"), &all("mass"), rows);
    let level = |place: &usize| poles::rest_height(&ring.solved.sets[*place]).value;
    let Some(highest) = places.clone().max_by(|a, b| level(a).in_m().total_cmp(&level(b).in_m())) else { return };
    let (crossing, ground) = (Ring::path(highest, "rest-level"), &house.ground);
    let height = poles::above(level(&highest), ground.value).from("level", crossing).from("base", ground.path.as_str());
    rows.add("house.height", "height of the poles' axes at their highest crossing above the ground outside", height);
}

/// Wood and mass of poles, each cut to its length.
pub(super) fn wood_of_all(wood: &[String], mass: &[String], rows: &mut Rows) {
    let wood = rows.parts::<Volume>(wood.iter().cloned());
    let sum = poles::wood_of_all(wood.iter().map(|(.., volume)| *volume).sum()).of_parts(wood);
    rows.add("roof.poles.volume", "wood of the poles, cut to length", sum);
    let mass = rows.parts::<Mass>(mass.iter().cloned());
    let sum = poles::mass_of_all(mass.iter().map(|(.., mass)| *mass).sum()).of_parts(mass);
    rows.add("roof.poles.mass", "mass of the poles, cut to length", sum);
}

fn raising(house: &House, ring: &Ring, rows: &mut Rows) {
    let first = ring.propped.order.first().map_or(0, |&first| first);
    let plate = Ring::path(first, "seat-level");
    let first_up = ring.raised.first().map(|level| level.path.as_str());
    let top = poles::prop_top(&ring.propped);
    let top = match first_up {
        Some(level) => bind(bind(of_the_poles(top, ring, rows), rows, level), rows, &plate),
        None => ["roof.ring.pitch", "roof.clearance", "roof.ring.eye-level"]
            .iter()
            .fold(top, |top, path| bind(top, rows, path)),
    };
    let top = rows.add("roof.raising.prop-top", "level of the top of the prop", top);
    let floor = &house.floor_level;
    let bases = [
        ("roof.raising.prop-above-floor", "the finished floor", Some(floor.value), floor.path.clone()),
        ("roof.raising.prop-above-plate", "the plate at its first pole", rows.value(&plate), plate.clone()),
    ];
    for (path, base, level, base_path) in bases {
        if let Some(level) = level {
            let above = poles::above(top, level).from("level", "roof.raising.prop-top").from("base", base_path);
            rows.add(path, format!("top of the prop above {base}"), above);
        }
    }
    let slack = of_the_poles(poles::slack(&ring.propped), ring, rows);
    // Those in between are held where they are by the last that is up.
    let last_up = ring.raised.last().map(|level| level.path.as_str());
    let slack = match (first_up, last_up) {
        (Some(first), Some(last)) => bind(bind_once(bind(slack, rows, first), rows, last), rows, &plate),
        _ => bind(slack, rows, "roof.clearance"),
    };
    rows.add("roof.raising.slack", "what is open for the last pole", slack);
    let sunk = poles::sunk(ring.solved.eye_height, ring.settled.eye_height).without("before").without("after");
    let sunk = bind(bind(sunk, rows, "roof.bedding"), rows, "roof.ring.pitch");
    rows.add("roof.raising.sinks", "how far the eye sinks when the prop goes", sunk);
    teams(&ring.alone, rows);
}

/// What people lift together.
pub(super) fn teams(alone: &Known<Mass>, rows: &mut Rows) {
    let each = rows.known("what each lifts alone", alone);
    for team in poles::teams() {
        let path = format!("roof.raising.lift-of-{}", team.people);
        let lifted = poles::team_lift(each, team).from("each alone", "poles.alone");
        rows.add(path, format!("what {} people lift by hand", team.people), lifted);
    }
}
