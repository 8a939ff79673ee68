//! Rows of a plan of mixes: how many, in which order, of what, how many bricks and bars, what to set aside, first and last day.

use super::bricks::{COB_SAMPLES, asked};
use crate::build::{BrickTest, Wanted};
use crate::earth::mixture;
use crate::earth::strength;
use crate::earth::tables::number;
use crate::house::{Bricks, Earth, House, MixPlan, Mixes, Wish};
use crate::known::Known;
use crate::row::Rows;
use crate::units::{Kind, Mass, Pressure, Quantity, Ratio};

pub(super) fn walk(house: &House, rows: &mut Rows) {
    for mixes in &house.mixes {
        if let (Some(earth), Some(plan)) = (&house.earth, &mixes.plan) {
            Plan { mixes, plan, earth, name: mixes.name.replace('-', " ") }.walk(house, rows);
        }
    }
}

/// The plan of the mixes of one recipe.
struct Plan<'a> {
    mixes: &'a Mixes,
    plan: &'a MixPlan,
    earth: &'a Earth,
    name: String,
}

impl Plan<'_> {
    fn path(&self, noun: &str) -> String {
        self.mixes.path(&format!("plan.{noun}"))
    }

    fn title(&self, words: &str) -> String {
        format!("{words} the plan of the mixes {}", self.name)
    }

    fn walk(&self, house: &House, rows: &mut Rows) {
        rows.known(self.title("number from which the order is drawn by lot in"), &self.plan.start);
        let steps = self.steps(rows);
        let runs = self.runs(steps, rows);
        self.in_order(rows);
        self.pieces(runs, house, rows);
        self.room(steps, rows);
        self.set_aside(runs, rows);
        self.days(runs, rows);
    }

    /// The row of steps in a trial mix.
    fn steps_path(&self) -> String {
        if self.plan.batch.is_some() { self.path("steps") } else { self.mixes.path("batch") }
    }

    fn steps(&self, rows: &mut Rows) -> u64 {
        if let Some(batch) = &self.plan.batch {
            rows.known(self.title("buckets of a trial mix in"), batch);
            let steps = mixture::steps_of_batch(self.mixes.step.value, self.plan.whole)
                .from("step", self.mixes.step.path.as_str())
                .with("buckets of a trial mix", batch.value, batch.path.as_str());
            rows.add(self.path("steps"), self.title("steps of a bucket in a trial mix of"), steps);
        }
        u64::from(self.plan.whole)
    }

    /// How many mixes there are to make.
    fn runs(&self, steps: u64, rows: &mut Rows) -> u64 {
        let (count, start) = (self.plan.planned.runs.len(), &self.plan.start);
        if self.plan.is_next {
            let counted = self.mixes.found.counts.len() as u64;
            let mut answer = mixture::one_mix(counted, count).from("mixes", self.mixes.path("measurable"));
            let next = self.mixes.path("next");
            if let Some(row) = rows.find(&next) {
                answer = answer.with("what it narrows", row.quantity, next);
            }
            return rows.add(
                self.path("runs"),
                self.title("mixes to make next (the one that narrows most what governs) by"),
                answer,
            );
        }
        let order = self.plan.planned.order.word();
        let answer = mixture::mixes_to_make(steps, self.plan.planned.distinct)
            .from("steps", self.steps_path())
            .with("step", self.mixes.step.value, self.mixes.step.path.as_str())
            .of_parts(self.limits())
            .of_parts(self.tried());
        let words = format!("distinct mixes to make, which tell a {order} surface and whether it misses, by");
        let distinct = rows.add(self.path("distinct"), self.title(&words), answer);
        let answer = mixture::mixes_in_all(distinct, count).from("distinct", self.path("distinct"));
        let answer = answer.with("start", start.value, start.path.as_str()).of_parts(self.tried());
        rows.add(self.path("runs"), self.title("mixes to make, some of them twice, by"), answer)
    }

    fn limits(&self) -> Vec<(String, String, f64)> {
        let sides = self.mixes.parts.iter().flat_map(|(ingredient, [low, high])| {
            [(format!("fewest {ingredient}"), low), (format!("most {ingredient}"), high)]
        });
        sides.map(|(title, side)| (title, side.path.clone(), side.value)).collect()
    }

    /// What is tried already, as inputs.
    fn tried(&self) -> Vec<(String, String, f64)> {
        let tried = self.mixes.tried.iter().flat_map(|tried| tried.buckets.iter().flatten());
        tried.map(|buckets| (String::from("buckets tried"), buckets.path.clone(), buckets.value)).collect()
    }

    /// What each is made of, in the order in which they are made.
    fn in_order(&self, rows: &mut Rows) {
        let (step, runs) = (&self.mixes.step, self.path("runs"));
        let count = self.plan.planned.runs.len() as u64;
        for (place, run) in self.plan.planned.runs.iter().enumerate() {
            for ((ingredient, _), steps) in self.mixes.parts.iter().zip(run) {
                let answer = mixture::to_fill(step.value, *steps).from("step", step.path.as_str());
                let answer = answer.with("mixes to make", count, runs.as_str());
                let title = self.title(&format!("buckets of {} in mix {} of", spoken(ingredient), place + 1));
                rows.add(self.path(&format!("run.{}.{ingredient}", place + 1)), title, answer);
            }
        }
    }

    /// Bricks, bars and panels.
    fn pieces(&self, runs: u64, house: &House, rows: &mut Rows) {
        let wish = |kind: Kind| self.mixes.wishes.iter().find(|wish| wish.kind() == kind);
        let of_each = self.bricks(wish(Kind::Pressure), house, rows);
        if let Some(of_each) = of_each {
            let answer = mixture::pieces(runs, of_each).from("mixes", self.path("runs"));
            let answer = answer.from("of each", self.path("bricks"));
            rows.add(self.path("all.bricks"), self.title("dry bricks to make in all, by"), answer);
        }
        let is_crushed = of_each.is_some() || wish(Kind::Pressure).is_some();
        let habits = [
            ("all.damp", "plan-damp", "damp bricks to make in all, by", is_crushed),
            ("all.bars", "plan-bars", "bars to make in all, by", wish(Kind::Ratio).is_some()),
            ("all.panels", "plan-panels", "panels to make in all, by", wish(Kind::Number).is_some()),
        ];
        for (noun, fact, words, _) in habits.into_iter().filter(|habit| habit.3) {
            let answer = mixture::pieces_by_habit(runs, number(fact)).from("mixes", self.path("runs"));
            rows.add(self.path(noun), self.title(words), answer);
        }
        let has_a_piece = |wish: &&Wish| [Kind::Pressure, Kind::Ratio, Kind::Number].contains(&wish.kind());
        for wish in self.mixes.wishes.iter().filter(|wish| !has_a_piece(wish)) {
            let words = format!(
                "pieces of each mix for {} (strength takes bricks, a share a bar, a score a panel: write down what you make for it) in",
                spoken(&wish.name)
            );
            rows.not_known(self.path(&format!("piece-{}", wish.name)), self.title(&words));
        }
    }

    /// Dry bricks of each mix: as many as a code asks for of the wall's cob, else as many as tell good from useless.
    fn bricks(&self, wish: Option<&Wish>, house: &House, rows: &mut Rows) -> Option<u64> {
        let path = self.path("bricks");
        let words = "dry bricks of each mix in";
        if let Some(given) = &self.plan.bricks {
            return Some(rows.known(self.title(words), given));
        }
        let is_of_the_wall = house.wall.cob.as_ref() == Some(&self.mixes.of);
        let wish_of_the_wall = wish.filter(|_| is_of_the_wall);
        if let Some(asked) = wish_of_the_wall.and_then(|_| asked(house, COB_SAMPLES, "tests.cob.compression")) {
            let why = "whichever mix is chosen is to be shown with as many as its code asks for";
            let known = Known::assumed(asked.number as u64, path, asked.citation.standing.into(), why);
            let words = format!("dry bricks of each mix ({}) in", asked.citation.place);
            return Some(rows.known(self.title(&words), &known));
        }
        let wish = wish.filter(|wish| wish.want == Wanted::AtLeast)?;
        let [Some(below), _] = &wish.useless else { return None };
        let pressure = |quantity: Quantity| Pressure::try_from(quantity).ok();
        let (wanted, useless) = (pressure(wish.value.value)?, pressure(below.value)?);
        let Some(scatter) = self.scatter(&house.bricks, rows) else {
            let words = "dry bricks of each mix (crush two bricks of any mix of it first, or write `scatter`) in";
            rows.not_known(path, self.title(words));
            return None;
        };
        let Some(count) = strength::bricks_wanted(wanted, wanted * scatter.in_fraction(), useless) else {
            let words = "dry bricks of each mix (they scatter too much: wish for more room between good and useless, or write `bricks`) in";
            rows.not_known(path, self.title(words));
            return None;
        };
        let answer = mixture::bricks_of_each(wanted, useless, scatter, count)
            .from("wanted", wish.value.path.as_str())
            .from("below", below.path.as_str())
            .from("scatter", self.path("scatter"));
        Some(rows.add(path, self.title(words), answer))
    }

    /// How bricks scatter: as is written, or as those of the recipe did.
    fn scatter(&self, bricks: &[Bricks], rows: &mut Rows) -> Option<Ratio> {
        let words = "scatter of bricks, of their mean, in";
        if let Some(given) = &self.plan.scatter {
            return Some(rows.known(self.title(words), given));
        }
        let of_it = bricks.iter().filter(|lot| lot.of == self.mixes.of && lot.test == BrickTest::Crushed);
        let found = of_it.map(|lot| ["deviation", "mean"].map(|noun| lot.path(noun))).find_map(|[deviation, mean]| {
            let [Some(own), Some(middle)] = [&deviation, &mean].map(|path| rows.value::<Pressure>(path)) else {
                return None;
            };
            Some(mixture::scatter_share(own, middle).from("deviation", deviation).from("mean", mean))
        });
        Some(rows.add(self.path("scatter"), self.title(words), found?))
    }

    /// What the pieces of a mix fill, and what a trial mix gives.
    fn room(&self, steps: u64, rows: &mut Rows) {
        let Some(bricks) = rows.value::<u64>(&self.path("bricks")) else { return };
        let each = |noun: &str, fact: &str| if rows.find(&self.path(noun)).is_some() { number(fact) } else { 0.0 };
        let [damp, bars, panels] =
            [("all.damp", "plan-damp"), ("all.bars", "plan-bars"), ("all.panels", "plan-panels")]
                .map(|(noun, fact)| each(noun, fact));
        let moulded = mixture::moulded(bricks, damp, bars, panels).from("bricks", self.path("bricks"));
        let moulded = moulded.without("damp").without("bars").without("panels");
        let moulded =
            rows.add(self.path("moulded"), self.title("volume of the pieces of one mix, as moulded, by"), moulded);
        let Some(recipe) = self.earth.recipe(&self.mixes.of) else { return };
        let placed =
            mixture::trial_placed(steps, self.mixes.step.value, self.earth.bucket(), recipe.placed_yield.value)
                .from("steps", self.steps_path())
                .from("step", self.mixes.step.path.as_str())
                .from("bucket", self.earth.bucket_path())
                .from("placed yield", recipe.path("yield"));
        let is_enough = placed.value >= moulded;
        let words = if is_enough { "" } else { " (too little: write a larger `batch`)" };
        let title = self.title(&format!("what a trial mix gives, placed{words}, in"));
        rows.add(self.path("placed"), title, placed);
    }

    /// What to set aside of each ingredient.
    fn set_aside(&self, runs: u64, rows: &mut Rows) {
        let step = &self.mixes.step;
        for (place, (ingredient, _)) in self.mixes.parts.iter().enumerate() {
            let steps = self.plan.planned.runs.iter().map(|run| run[place]).sum();
            let path = |noun: &str| self.path(&format!("aside.{ingredient}.{noun}"));
            let title = |words: &str| self.title(&format!("{words} of {} to set aside for", spoken(ingredient)));
            let answer = mixture::set_aside(runs, step.value, steps).from("mixes", self.path("runs"));
            let buckets = rows.add(path("buckets"), title("buckets"), answer.from("step", step.path.as_str()));
            let volume = mixture::aside_volume(buckets, self.earth.bucket())
                .from("buckets", path("buckets"))
                .from("bucket", self.earth.bucket_path());
            rows.add(path("volume"), title("loose volume"), volume);
            let full = format!("earth.ingredients.{ingredient}.bucket-mass");
            if let Some(mass) = rows.value::<Mass>(&full) {
                let mass =
                    mixture::aside_mass(buckets, mass).from("buckets", path("buckets")).from("full bucket", full);
                rows.add(path("mass"), title("mass, damp from its pile,"), mass);
            }
        }
    }

    /// When the first is made, when the last, and when they are tested.
    fn days(&self, runs: u64, rows: &mut Rows) {
        let (dry, in_a_day) = (&self.plan.dry, &self.plan.in_a_day);
        rows.known(self.title("days to dry (weigh until two weighings a day apart agree) in"), dry);
        rows.known(self.title("mixes that are made in a day in"), in_a_day);
        let days = mixture::making_days(runs, in_a_day.value)
            .from("mixes", self.path("runs"))
            .from("in a day", in_a_day.path.as_str());
        let days = rows.add(self.path("making-days"), self.title("days on which mixes are made in"), days);
        let Some(wanted) = &self.plan.wanted_by else { return };
        rows.known(self.title("day of testing what is made by"), wanted);
        let last = mixture::last_making_day(wanted.value, dry.value)
            .from("wanted", wanted.path.as_str())
            .from("drying", dry.path.as_str());
        let last = rows.add(self.path("last"), self.title("last day on which a mix is made in"), last);
        let first = mixture::first_making_day(last, days)
            .from("last", self.path("last"))
            .from("making days", self.path("making-days"));
        rows.add(self.path("first"), self.title("first day on which a mix is made in"), first);
    }
}

fn spoken(name: &str) -> String {
    name.replace('-', " ")
}
