//! Rows of the pieces of a bond beam: how many, what each is cut to and out of, and all of them together.

use crate::house::built_in::{BeamPart, Lie, Stretch};
use crate::house::{BondBeam, House};
use crate::quantities::line::{bind, path};
use crate::quantities::uneven::bind_height;
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::Length;
use crate::wall::{self, Made, Middle};

/// Nothing rises or turns by so little.
const LEVEL: f64 = 1e-9;

/// The row of its length all round on the slope of the top.
pub(super) const ON_SLOPE: &str = "wall.bond-beam.length-on-slope";

/// Adds the rows; its length all round where the top slopes.
pub(super) fn walk(house: &House, beam: &BondBeam, lengths: &[Length], rows: &mut Rows) -> Option<Length> {
    let cuts: Vec<Cut<'_>> = beam.parts.iter().map(|part| one(house, beam, part, lengths, rows)).collect();
    sums(house, beam, &cuts, rows);
    let all = beam.parts.iter().zip(&cuts).map(|(part, cut)| Some(part.middle.length() * cut.growth?));
    let answer = wall::beam_on_slope(Length::m(all.sum::<Option<f64>>()?));
    let nouns = cuts.iter().flat_map(|cut| [cut.noun, "growth"].map(|noun| cut.on.path(noun)));
    let answer = nouns.fold(answer, |answer, path| bind(answer, rows, &path));
    Some(rows.add(ON_SLOPE, "length of the bond beam all round, on the slope of the top", answer))
}

/// The pieces of one part of the beam.
struct Cut<'a> {
    /// The stretch that the part is called after.
    on: &'a Stretch,
    pieces: u64,
    /// As it is cut.
    length: Length,
    plank: Option<Length>,
    noun: &'static str,
    growth: Option<f64>,
}

fn one<'a>(house: &House, beam: &'a BondBeam, part: &BeamPart, lengths: &[Length], rows: &mut Rows) -> Cut<'a> {
    let on = &beam.stretches[part.longest];
    let words: Vec<String> = part.over.iter().map(|&place| beam.stretches[place].words()).collect();
    let name = format!("over {}", words.join(" with "));
    let (length, noun) = match part.over[..] {
        [only] if part.is_whole() => (lengths[only], "length"),
        _ => {
            let path = on.path("part-length");
            let length = part_length(beam, part, lengths);
            (rows.add(path, format!("length of the bond beam {name}"), length), "part-length")
        }
    };
    let growth = growth(house, part, (on, &name), rows);
    let ask = Asked { beam, part, on, name, length, noun, growth };
    ask.pieces(rows)
}

/// How many times as long as in plan a part is on the slope of the top; none where that is level.
fn growth(house: &House, part: &BeamPart, (on, name): (&Stretch, &str), rows: &mut Rows) -> Option<f64> {
    if house.wall.top.is_level() {
        return None;
    }
    let growth = bind_steepest(wall::slope_growth(part.steepest), house, part, rows);
    let title = format!("how many times as long as in plan the bond beam is {name}, on the slope of the top");
    Some(rows.add(on.path("growth"), title, growth))
}

/// Binds what makes the steepest rise along a part: of what bends the slope of the top alone, of what is straight its direction too.
fn bind_steepest<T>(answer: Answer<T>, house: &House, part: &BeamPart, rows: &Rows) -> Answer<T> {
    let (Some(slope), Some(beam)) = (&house.wall.slope, &house.bond_beam) else {
        return bind_height(answer, house, rows);
    };
    let touched = part.touched(beam.stretches.len()).into_iter().map(|place| &beam.stretches[place]);
    let steepest: Vec<&Stretch> = touched.filter(|stretch| stretch.steepest >= part.steepest).collect();
    let answer = if part.steepest > LEVEL { bind(answer, rows, &slope.slope.path) } else { answer };
    let [straight] = steepest[..] else { return answer };
    if straight.way != Lie::Straight {
        return answer;
    }
    let points = &house.wall.points;
    let ends = [straight.run, (straight.run + 1) % points.len()].map(|index| &points[index]);
    // Along itself nothing moves the direction of a straight run.
    let axis = house.wall.line.at(straight.along[0]).axis;
    let across = [("x", axis.y), ("y", axis.x)].into_iter().filter(|(_, share)| share.abs() > LEVEL);
    let paths = across.flat_map(|(noun, _)| ends.map(|end| path(end, noun)));
    paths.fold(bind(answer, rows, &slope.rises.path), |answer, path| bind(answer, rows, &path))
}

/// Length of a part that is not one whole stretch.
fn part_length(beam: &BondBeam, part: &BeamPart, lengths: &[Length]) -> Answer<Length> {
    let length = Length::m(part.middle.length());
    if part.is_lengthened() {
        return wall::lengthened(beam.scarf.value, beam.layers.value, length)
            .from("scarf", beam.scarf.path.as_str())
            .from("layers", beam.layers.path.as_str());
    }
    let gives_to = beam.parts.iter().filter(|other| {
        let touched = other.touched(beam.stretches.len());
        other.is_lengthened() && part.over.iter().any(|place| touched.contains(place))
    });
    let over: Vec<usize> = part.over.iter().copied().chain(gives_to.flat_map(|other| other.over.clone())).collect();
    let inputs = over.iter().map(|&place| {
        let one = &beam.stretches[place];
        (one.words(), one.path("length"), lengths[place])
    });
    let answer = wall::part_length(length).of_parts(inputs.collect());
    if part.is_whole() {
        return answer;
    }
    let answer = answer.with("length of a scarf", beam.scarf.value, beam.scarf.path.as_str());
    answer.with("layers", beam.layers.value, beam.layers.path.as_str())
}

/// A part with what its rows have in common.
struct Asked<'a, 'b> {
    beam: &'a BondBeam,
    part: &'b BeamPart,
    on: &'a Stretch,
    name: String,
    length: Length,
    noun: &'static str,
    growth: Option<f64>,
}

impl<'a> Asked<'a, '_> {
    fn pieces(&self, rows: &mut Rows) -> Cut<'a> {
        let (timber, beam, length) = (self.beam.timber(), self.beam, self.length);
        let (wall::Timber { width, piece, scarf, fit, layers }, pieces) = (timber, self.part.division.pieces);
        let (piece, piece_path) = match self.growth {
            None => (piece, beam.piece.path.clone()),
            Some(growth) => {
                let in_plan = wall::timber_in_plan(piece, scarf, growth)
                    .from("piece", beam.piece.path.as_str())
                    .from("scarf", beam.scarf.path.as_str())
                    .from("growth", self.on.path("growth"));
                let title = format!("longest timber of the bond beam {} as it is seen in plan", self.name);
                (rows.add(self.on.path("timber-in-plan"), title, in_plan), self.on.path("timber-in-plan"))
            }
        };
        let middle = match self.part.measured(&beam.stretches) {
            Middle::Arc { radius, .. } => {
                Middle::Arc { length, radius: rows.value(&self.on.path("radius")).unwrap_or(radius) }
            }
            other => other,
        };
        let count = match middle {
            Middle::Straight(_) => wall::straight_pieces(length, piece, scarf),
            Middle::Arc { radius, .. } => wall::curved_pieces(length, radius, width, piece, scarf, fit, layers, pieces),
            Middle::Measured(_) => wall::measured_pieces(length, width, piece, scarf, fit, layers, pieces),
        };
        let count = self
            .bound(count, rows)
            .from("piece", piece_path)
            .from("fit", beam.fit.path.as_str())
            .from("layers", beam.layers.path.as_str());
        let title = format!("pieces of the bond beam {}, each layer", self.name);
        let pieces = rows.add(self.on.path("pieces"), title, count);
        let (cut, title) = match (middle, self.part.division.made) {
            (Middle::Straight(_), _) => (wall::straight_cut(length, pieces, scarf), "a piece"),
            (Middle::Arc { radius, .. }, Made::Straight) => {
                (wall::curved_cut(length, radius, pieces, width, scarf), "a piece")
            }
            (Middle::Arc { radius, .. }, Made::Sawn) => {
                (wall::sawn_cut(length, radius, pieces, width, scarf), "the plank of a sawn piece")
            }
            (Middle::Measured(chain), Made::Straight) => {
                (wall::measured_cut(length, pieces, width, scarf, chain), "the longest piece")
            }
            (Middle::Measured(chain), Made::Sawn) => {
                (wall::measured_sawn_cut(length, pieces, width, scarf, chain), "the plank of the longest sawn piece")
            }
        };
        let title = format!("{title} of the bond beam {} is cut to", self.name);
        let cut = self.bound(cut, rows);
        let cut = match self.growth {
            None => cut,
            Some(growth) => {
                let in_plan = rows.add(self.on.path("cut-in-plan"), format!("{title}, in plan"), cut);
                wall::cut_on_slope(in_plan, scarf, growth)
                    .from("in plan", self.on.path("cut-in-plan"))
                    .from("scarf", beam.scarf.path.as_str())
                    .from("growth", self.on.path("growth"))
            }
        };
        let length = rows.add(self.on.path("cut-length"), title, cut);
        let plank = self.bent(middle, pieces, rows);
        Cut { on: self.on, pieces, length, plank, noun: self.noun, growth: self.growth }
    }

    /// Bevel, height and plank of pieces over a curve; none over a straight.
    fn bent(&self, middle: Middle<'_>, pieces: u64, rows: &mut Rows) -> Option<Length> {
        let (width, length) = (self.beam.width.value, self.length);
        let (bevel, sagitta) = match middle {
            Middle::Straight(_) => return None,
            Middle::Arc { radius, .. } => {
                let turn = rows.value(&self.on.path("turn"))?;
                (wall::bevel(turn, pieces), wall::sagitta(length, radius, pieces))
            }
            Middle::Measured(chain) => {
                (wall::measured_bevel(length, pieces, chain), wall::measured_sagitta(length, pieces, chain))
            }
        };
        let name = &self.name;
        let title = format!("bevel at the ends of the pieces {name}, from square");
        rows.add(self.on.path("bevel"), title, self.bound(bevel, rows));
        let title = match self.part.division.made {
            Made::Straight => format!("how far straight pieces leave the curve {name}"),
            Made::Sawn => format!("height of the curve that the pieces {name} are sawn to, over their chord"),
        };
        let sagitta = rows.add(self.on.path("sagitta"), title, self.bound(sagitta, rows));
        let plank = match middle {
            Middle::Arc { radius, .. } => wall::plank_width(width, length, radius, pieces),
            _ => wall::measured_plank(width, sagitta).from("sagitta", self.on.path("sagitta")),
        };
        let title = format!("plank for pieces sawn to the curve {name}");
        Some(rows.add(self.on.path("plank"), title, self.bound(plank, rows)))
    }

    /// Binds what most formulas of a part read, and of a measured one what makes its shape.
    fn bound<T>(&self, answer: Answer<T>, rows: &Rows) -> Answer<T> {
        let mut answer = answer
            .from("length", self.on.path(self.noun))
            .from("radius", self.on.path("radius"))
            .from("turn", self.on.path("turn"))
            .from("pieces", self.on.path("pieces"))
            .from("width", self.beam.width.path.as_str())
            .from("scarf", self.beam.scarf.path.as_str());
        let is_measured = matches!(self.part.measured(&self.beam.stretches), Middle::Measured(_));
        let touched = self.part.touched(self.beam.stretches.len());
        let shape = touched
            .iter()
            .filter(|_| is_measured)
            .flat_map(|&place| ["length", "radius", "turn"].map(|noun| self.beam.stretches[place].path(noun)));
        for path in shape {
            if !answer.reason.inputs.iter().any(|input| input.path == path) {
                answer = bind(answer, rows, &path);
            }
        }
        answer
    }
}

fn sums(house: &House, beam: &BondBeam, cuts: &[Cut<'_>], rows: &mut Rows) {
    let layers = beam.layers.value;
    let sum = cuts.iter().map(|cut| cut.pieces).sum();
    let mut pieces = wall::all_pieces(layers, sum, house.wall.line.is_closed());
    let sum: f64 = cuts.iter().map(|cut| cut.pieces as f64 * cut.length.in_m()).sum();
    let mut cut_length = wall::all_cut(layers, Length::m(sum));
    let planks =
        cuts.iter().map(|cut| cut.pieces as f64 * cut.length.in_m() * cut.plank.unwrap_or(beam.width.value).in_m());
    let mut timber = wall::beam_timber(beam.height.value, planks.sum()).from("height", beam.height.path.as_str());
    for cut in cuts {
        pieces = bind(pieces, rows, &cut.on.path("pieces"));
        for noun in ["pieces", "cut-length"] {
            cut_length = bind(cut_length, rows, &cut.on.path(noun));
            timber = bind(timber, rows, &cut.on.path(noun));
        }
        timber = bind(timber, rows, &cut.on.path("plank"));
    }
    if cuts.iter().any(|cut| cut.plank.is_none()) {
        timber = timber.with("width", beam.width.value, beam.width.path.as_str());
    }
    let layers_path = beam.layers.path.as_str();
    let pieces = pieces.from("layers", layers_path);
    let pieces = rows.add("wall.bond-beam.pieces", "pieces of the bond beam, all layers", pieces);
    let cut_length = cut_length.from("layers", layers_path);
    rows.add("wall.bond-beam.cut-length", "length of all pieces of the bond beam, scarfs with them", cut_length);
    if let Some(cut) = cuts.iter().max_by(|a, b| a.length.in_m().total_cmp(&b.length.in_m())) {
        let longest = bind(wall::longest_cut(cut.length), rows, &cut.on.path("cut-length"));
        rows.add("wall.bond-beam.longest", "longest piece of the bond beam", longest);
    }
    rows.add("wall.bond-beam.timber", "timber to cut the bond beam from, laps and curves with it", timber);
    let scarfs = wall::beam_scarfs(pieces, layers, house.wall.line.is_closed())
        .from("pieces", "wall.bond-beam.pieces")
        .from("layers", layers_path);
    let scarfs = rows.add("wall.bond-beam.scarfs", "scarfs of the bond beam", scarfs);
    let bolts = wall::beam_bolts(scarfs, beam.bolts.value)
        .from("scarfs", "wall.bond-beam.scarfs")
        .from("each", beam.bolts.path.as_str());
    rows.add("wall.bond-beam.bolts-in-all", "bolts through the scarfs of the bond beam", bolts);
}
