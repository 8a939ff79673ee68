//! Rows of a straight pole on two supports: what governs it in bending, shear, pull, push and sag.

use super::super::line::bind;
use super::factors::{Factors, Lasts, by_wood};
use super::hold::left;
use super::{loads, members};
use crate::house::Held;
use crate::loads::acting::Loads;
use crate::reason::Answer;
use crate::roof::standing::{Lasting, Straight, StraightAnswers, Used, Wood};
use crate::row::Rows;
use crate::timber::{stress, used};
use crate::units::{Length, LineLoad, Ratio};

/// What a straight pole is called, and the rows that it follows from.
#[derive(Clone)]
pub(super) struct Named<'a> {
    /// The stem of its rows, without a dot at its end.
    pub stem: &'a str,
    pub words: &'a str,
    /// Its supports, and the end from which places along it count.
    pub seats: [&'a str; 2],
    pub from: &'a str,
    /// Rows of its shape.
    pub frame: &'a [&'a str],
    /// The row of its weight, where its thickness does not say it.
    pub heavy: Option<&'a str>,
    pub span: &'a str,
    /// Rows of its thickness.
    pub thick: &'a [&'a str],
    pub seat: &'a str,
}

/// A straight pole as a beam, with its answers.
pub(super) struct Rafter<'a> {
    pub named: &'a Named<'a>,
    pub held: &'a Held,
    pub beam: Straight,
    /// Its wood; as light as it is at the least; water behind the edge board.
    pub wood: Wood,
    pub light: Wood,
    pub pond: Option<(LineLoad, Length)>,
    pub loads: Loads,
    pub answers: StraightAnswers,
    pub factors: Factors,
    pub strength: Lasts,
    pub sag: Lasts,
    /// How deep it is let into its supports.
    pub seat: Length,
    /// Diameter of the hole through it over the last of them, and its row; zero where none is bored.
    pub bored: (Length, &'static str),
}

impl Rafter<'_> {
    /// Another stick of the same wood, held by the same code.
    pub fn like<'a>(
        &'a self,
        named: &'a Named<'a>,
        (beam, answers): (&Straight, &StraightAnswers),
        [strength, sag]: [Lasts; 2],
    ) -> Rafter<'a> {
        let (beam, answers, factors) = (beam.clone(), answers.clone(), self.factors.clone());
        Rafter { named, beam, answers, factors, strength, sag, ..*self }
    }

    fn path(&self, noun: &str) -> String {
        format!("{}.{noun}", self.named.stem)
    }

    pub fn at(&self, lasts: &Lasts, combination: usize) -> String {
        lasts.acting[combination].name()
    }

    /// Adds what every force in a rafter follows from.
    pub fn forced<T>(&self, answer: Answer<T>, by: (&Lasts, usize), rows: &Rows) -> Answer<T> {
        let answer = self.named.heavy.iter().fold(answer, |answer, path| bind(answer, rows, path));
        self.lifted(answer, by, rows)
    }

    /// The same of what lifts it, which finds the least weight.
    pub fn lifted<T>(&self, answer: Answer<T>, (lasts, combination): (&Lasts, usize), rows: &Rows) -> Answer<T> {
        let answer = self.named.frame.iter().fold(answer, |answer, path| bind(answer, rows, path));
        loads::bound(answer, &lasts.acting[combination], rows)
    }

    /// Everything that may lift it off its seats.
    pub fn lifting(&self) -> Lasts {
        self.factors.lifting(&self.loads, usize::from(self.pond.is_some()))
    }

    pub fn strength(&self, rows: &mut Rows) {
        let span = self.beam.supports[1] - self.beam.supports[0];
        let bears = self.factors.bears(self.held, &self.strength.durations, span, self.thin_end());
        let under = Lasting { combinations: &self.strength.combinations, bears: &bears };
        let seats = [(0, Length::ZERO), (1, self.bored.0)].map(|(seat, hole)| left(self.over(seat), self.seat, hole));
        let worst = self.beam.worst(&self.answers, &seats, &under);
        if let Some(most) = &worst.bending {
            self.bending(most, rows);
        }
        if let Some(most) = &worst.shear {
            self.shear(most, rows);
        }
        if let Some(most) = &worst.compression {
            self.along(most, "compression", rows);
        }
        if let Some(most) = &worst.tension {
            self.along(most, "tension", rows);
        }
    }

    /// Its diameter over a support.
    pub fn over(&self, seat: usize) -> Length {
        self.beam.pole.diameter(self.beam.supports[seat])
    }

    /// The thickness that it is taken to buckle with: no less anywhere.
    fn thin_end(&self) -> Length {
        self.beam.pole.butt.min(self.beam.pole.tip)
    }

    fn governs(&self, most: &Used) -> String {
        let near = |at: Length| (most.section.along - at).in_m().abs() < 1e-6;
        let at = match self.beam.supports.iter().position(|at| near(*at)) {
            Some(seat) => format!("at {}", self.named.seats[seat]),
            None => format!("{:.2} m from {}", most.section.along.in_m(), self.named.from),
        };
        format!("{at}, under {}", self.at(&self.strength, most.combination))
    }

    fn section<T>(&self, answer: Answer<T>, most: &Used, rows: &Rows) -> Answer<T> {
        let answer = self.named.thick.iter().fold(answer, |answer, path| bind(answer, rows, path));
        let is_head = (most.section.along - self.beam.supports[1]).in_m().abs() < 1e-9;
        let bored = most.is_cut && is_head && self.bored.0 > Length::ZERO;
        let answer = if bored { bind(answer, rows, self.bored.1) } else { answer };
        if most.is_cut && self.seat > Length::ZERO { bind(answer, rows, self.named.seat) } else { answer }
    }

    fn bending(&self, most: &Used, rows: &mut Rows) {
        let who = self.named.words;
        let governs = self.governs(most);
        let by = (&self.strength, most.combination);
        let moment = self.forced(used::governing_moment(most.moment), by, rows);
        let moment = self.section(moment, most, rows);
        rows.add(self.path("moment"), format!("{who}: moment {governs}"), moment);
        let modulus = self.section(used::governing_modulus(most.left.upright), most, rows);
        rows.add(self.path("modulus"), format!("{who}: section modulus there"), modulus);
        let strength = self.held.wood.values.bending.value * self.factors.wet("bending");
        let duration = self.strength.durations[most.combination];
        let share = used::bending_used(most.moment, most.left.upright, strength, duration, self.factors.partial)
            .from("moment", self.path("moment"))
            .from("modulus", self.path("modulus"));
        let share = by_wood(share, "bending", rows);
        let title = format!("{who}: {} {governs}", members::words("bending"));
        rows.add(self.path(&self.factors.noun("bending")), title, share);
    }

    fn shear(&self, most: &Used, rows: &mut Rows) {
        let who = self.named.words;
        let governs = self.governs(most);
        let [one, other] = most.section.shear;
        let across = used::governing_shear(one, other).without("upright").without("sideways");
        let across = self.forced(across, (&self.strength, most.combination), rows);
        let across = rows.add(self.path("shear-force"), format!("{who}: force across it {governs}"), across);
        let strength = self.held.wood.values.shear.value * self.factors.wet("shear");
        let duration = self.strength.durations[most.combination];
        let (uncracked, partial) = (self.factors.uncracked, self.factors.partial);
        let share = used::shear_used(across, most.left.area, uncracked, strength, duration, partial)
            .from("shear", self.path("shear-force"))
            .without("area")
            .without("uncracked");
        let share = self.section(by_wood(share, "shear", rows), most, rows);
        let title = format!("{who}: {} {governs}", members::words("shear"));
        rows.add(self.path(&self.factors.noun("shear")), title, share);
    }

    /// Where it is pushed or pulled along the grain, and bent.
    fn along(&self, most: &Used, noun: &str, rows: &mut Rows) {
        let who = self.named.words;
        let governs = self.governs(most);
        let force = most.section.pull;
        let (row, answer) = if noun == "tension" {
            ("pull", used::governing_pull(force))
        } else {
            ("push", used::governing_push(-force))
        };
        let answer = self.forced(answer, (&self.strength, most.combination), rows);
        let words = members::words(noun);
        rows.add(self.path(row), format!("{who}: {row} along it {governs}"), answer);
        let share = self.section(self.shared(most, noun), most, rows);
        let more = [self.named.span, "poles.strength.bending", "poles.strength.low-stiffness"];
        let more = if noun == "tension" { &more[1..2] } else { &more[..] };
        let share = more.iter().fold(bind(share, rows, &self.path(row)), |share, path| bind(share, rows, path));
        let share = by_wood(share, noun, rows);
        let share = loads::bound(share, &self.strength.acting[most.combination], rows);
        rows.add(self.path(&self.factors.noun(noun)), format!("{who}: {words} {governs}"), share);
    }

    fn shared(&self, most: &Used, noun: &str) -> Answer<Ratio> {
        let (factors, values) = (&self.factors, &self.held.wood.values);
        let (duration, partial) = (self.strength.durations[most.combination], factors.partial);
        let bending = values.bending.value * factors.wet("bending");
        let bent = used::bending_used(most.moment, most.left.upright, bending, duration, partial).value;
        let (force, area) = (most.section.pull, most.left.area);
        let share = if noun == "tension" {
            used::pulled_and_bent(force, area, values.tension.value * factors.wet("tension"), bent, duration, partial)
        } else {
            let span = self.beam.supports[1] - self.beam.supports[0];
            let (kept, buckling) = factors.column(self.held, span, self.thin_end(), duration);
            let strength = values.compression.value * factors.wet("compression");
            match buckling {
                None => used::pushed_and_bent(-force, area, kept, strength, bent, duration, partial),
                Some(buckling) => {
                    let strength = strength * (duration * kept.in_fraction());
                    used::pushed_and_bent_further(-force, area, strength, buckling, bent)
                }
            }
        };
        let inputs = ["pull", "push", "area", "kept", "strength", "bending used", "duration", "partial", "buckling"];
        inputs.iter().fold(share, |share, name| share.without(name))
    }

    pub fn sags(&self, rows: &mut Rows) {
        let who = self.named.words;
        let Ok(most) = self.answers.envelope(&self.sag.combinations) else { return };
        let Some(sag) = most.sags.first() else { return };
        let governs = self.at(&self.sag, sag.combination);
        let sags = self.forced(used::sag_in_the_end(sag.value), (&self.sag, sag.combination), rows);
        let sags = bind(bind(sags, rows, "poles.strength.stiffness"), rows, "poles.damp");
        rows.add(self.path("sags"), format!("{who}: sag in its middle, in the end, under {governs}"), sags);
        // As the row has it: between the supports it is the same but for its last bit.
        let between = self.beam.supports[1] - self.beam.supports[0];
        let span = rows.value(self.named.span).unwrap_or(between);
        let share = stress::sag_of_span(sag.value, span).from("sag", self.path("sags")).from("span", self.named.span);
        let title = format!("{who}: {}", members::words("sag"));
        rows.add(self.path(&self.factors.noun("sag")), title, share);
    }
}
