//! Rows of bars and washed samples: what each shrank by, what drips and spray take, what a code is shown of both for the wall's cob.

use super::line::bind;
use crate::build::{Wash, Washed};
use crate::earth::strength;
use crate::earth::tables::{erosion_steps, number};
use crate::house::{Bar, Erosion, House, Recipe};
use crate::row::Rows;
use crate::units::{Days, Fineness, Length, Quantity, Ratio, System};

/// Rows of every bar.
pub(super) fn bars(house: &House, rows: &mut Rows) {
    for bar in &house.bars {
        one_bar(bar, rows);
    }
}

fn one_bar(bar: &Bar, rows: &mut Rows) {
    let (name, of) = (bar.name.replace('-', " "), bar.of.replace('-', " "));
    let title = |words: &str| format!("{words} bar {name} of {of}");
    if let Some(day) = &bar.day {
        rows.known(title("day of drying the"), day);
    }
    let [wet, dry] = &bar.lengths;
    rows.known(title("length, wet, of"), wet);
    rows.known(title("length, dry, of"), dry);
    let reading = rows.known(title("how far each length may be off of"), &bar.reading);
    let lengths = (wet.value, dry.value);
    let own = strength::bar_by_lengths(lengths.0, lengths.1);
    let own = own.from("wet", wet.path.as_str()).from("dry", dry.path.as_str());
    rows.add(bar.path("shrinkage"), title("shrinkage of"), own);
    let sides = [
        ("shrinkage-low", "least shrinkage of", strength::bar_at_least(lengths.0, lengths.1, reading)),
        ("shrinkage-high", "greatest shrinkage of", strength::bar_at_most(lengths.0, lengths.1, reading)),
    ];
    for (noun, words, answer) in sides {
        let answer = answer.from("wet", wet.path.as_str()).from("dry", dry.path.as_str());
        rows.add(bar.path(noun), title(words), answer.from("reading", bar.reading.path.as_str()));
    }
}

/// Rows of what a recipe shrinks by: as it is written, beside its bars, or as its bars say.
pub(super) fn shrinkage(house: &House, recipe: &Recipe, is_cob: bool, rows: &mut Rows) {
    if !is_cob && !recipe.has_bar() {
        return;
    }
    let name = recipe.name.replace('-', " ");
    let title = format!("shrinkage of a bar of {name}");
    let of_it = || house.bars.iter().filter(|bar| bar.of == recipe.name);
    let tested = rows.parts::<Ratio>(of_it().map(|bar| bar.path("shrinkage")));
    if recipe.is_by_bars() {
        rows.add(recipe.path("shrinkage"), title, strength::mean_of_bars(recipe.shrinkage.value).of_parts(tested));
        return;
    }
    let written = rows.known(title, &recipe.shrinkage);
    if tested.is_empty() {
        return;
    }
    let mean = tested.iter().map(|(.., share)| *share).sum::<Ratio>() / tested.len() as f64;
    let within = of_it().any(|bar| {
        let [low, high] = ["shrinkage-low", "shrinkage-high"].map(|noun| rows.value::<Ratio>(&bar.path(noun)));
        low.zip(high).is_some_and(|(low, high)| low <= written && written <= high)
    });
    let words = if within { "" } else { " (beyond what any of them may be off: write another, or leave it out)" };
    let over = strength::shrinkage_over_bars(written, mean).from("written", recipe.path("shrinkage")).of_parts(tested);
    rows.add(
        recipe.path("shrinkage-over-bars"),
        format!("shrinkage as written over the mean of its bars{words}, of {name}"),
        over,
    );
}

/// Rows of every sample that was washed.
pub(super) fn erosion(house: &House, rows: &mut Rows) {
    for test in &house.erosion {
        washed(test, house.system, rows);
    }
}

/// Minutes are whole to within this.
const WHOLE: f64 = 1e-9;

fn washed(test: &Erosion, system: System, rows: &mut Rows) {
    let of = test.of.replace('-', " ");
    let on = match test.on {
        None => of,
        Some(Washed::Brick) => format!("a brick of {of}"),
        Some(Washed::Panel) => format!("a panel of {of}"),
    };
    let kind = test.kind.word();
    let title = |words: &str| format!("{words} {on}, {kind} test {}", test.name.replace('-', " "));
    if let Some(day) = &test.day {
        rows.known(title("day of washing"), day);
    }
    let pit = rows.known(title("depth of the pit in"), &test.pit);
    let time = rows.known(title("time under water of"), &test.time);
    let (path, pit_path) = (test.path("index"), test.pit.path.as_str());
    let (mildest, fails) = ends(kind);
    let words = format!("index ({mildest} is the mildest, {fails} fails) of");
    let answer = match test.kind {
        Wash::Drip => {
            let [least, most] = ["drip-minutes-least", "drip-minutes-most"].map(|name| Days::minutes(number(name)));
            if time < least || time > most {
                let [least, most] = [least, most].map(|time| Quantity::from(time).shown(system, Fineness::Figure));
                let words = format!("index (100 ml are to drip in {least} to {most}: make it again) of");
                return rows.not_known(path, title(&words));
            }
            strength::erosion_index(kind, pit.in_mm())
                .map(|index| strength::index_of_drips(pit, index).from("pit", pit_path))
        }
        Wash::Spray => {
            let whole = Days::minutes(number("spray-minutes"));
            // What is washed for longer is washed deeper: it counts as it is.
            let (deep, deep_path) = if time >= whole * (1.0 - WHOLE) {
                (pit, test.pit.path.clone())
            } else if test.is_bored {
                let answer = strength::in_an_hour(pit, time);
                let answer = answer.from("pit", pit_path).from("time", test.time.path.as_str());
                let words = title("what an hour would wash out of");
                (rows.add::<Length>(test.path("in-an-hour"), words, answer), test.path("in-an-hour"))
            } else {
                let whole = Quantity::from(whole).shown(system, Fineness::Figure);
                let words = format!("index (a spray lasts {whole}, or until it has bored through: make it again) of");
                return rows.not_known(path, title(&words));
            };
            strength::erosion_index(kind, deep.in_mm())
                .map(|index| strength::index_of_spray(deep, index).from("in an hour", deep_path))
        }
    };
    if let Some(answer) = answer {
        rows.add(path, title(&words), answer);
    }
}

/// The mildest index of a test, and the one that fails.
fn ends(kind: &str) -> (f64, f64) {
    let of_it = || erosion_steps().iter().filter(|step| step.test == kind).map(|step| step.index);
    (of_it().fold(f64::INFINITY, f64::min), of_it().fold(0.0, f64::max))
}

/// What a code is shown of how the wall's cob shrinks and washes out, where that was measured.
pub(super) fn shown(house: &House, rows: &mut Rows) {
    let Some((_, cob)) = house.cob() else { return };
    shown_shrinkage(house, cob, rows);
    for kind in [Wash::Drip, Wash::Spray] {
        let of_the_wall = || house.erosion.iter().filter(|test| test.of == cob.name && test.kind == kind);
        let of_it = || of_the_wall().filter(|test| is_shown(test));
        let unsaid = of_the_wall().filter(|test| test.on.is_none() && !is_shown(test)).count();
        let path = format!("tests.cob.{}-index", kind.word());
        let found = rows.parts::<u64>(of_it().map(|test| test.path("index")));
        let left_out = [(of_it().count() - found.len(), "not known"), (unsaid, "not said to be of a brick")];
        let left_out = left_out.iter().filter(|(count, _)| *count > 0);
        let left_out: String = left_out.map(|(count, why)| format!(" ({count} not counted: {why})")).collect();
        let worst = found.into_iter().reduce(|one, other| if other.2 > one.2 { other } else { one });
        let title = format!("index of the {} test of the wall's cob, the worst{left_out}", kind.word());
        match worst {
            Some((_, own, index)) => {
                rows.add(path, title, strength::worst_index(index).from("index", own));
            }
            None if unsaid > 0 || of_it().next().is_some() => rows.not_known(path, title),
            None => {}
        }
    }
}

/// The greatest of all that is known of a mix, where one bar is of the code's form: what else is known may raise it, and proves nothing.
fn shown_shrinkage(house: &House, cob: &Recipe, rows: &mut Rows) {
    let bars: Vec<&Bar> = house.bars.iter().filter(|bar| bar.of == cob.name).collect();
    let is_of_code_form = |bar: &Bar| strength::is_of_code_form(bar.lengths[0].value);
    let written = rows.parts::<Ratio>(cob.shrinkage.line.is_some().then(|| cob.path("shrinkage")));
    let path = "tests.cob.shrinkage";
    if !bars.iter().any(|bar| is_of_code_form(bar)) {
        if !bars.is_empty() || !written.is_empty() {
            let forms = [("shrinkage-form-m", System::Us), ("shrinkage-form-metric-m", System::Metric)];
            let [form, metric] =
                forms.map(|(name, system)| Quantity::from(Length::m(number(name))).shown(system, Fineness::Figure));
            let words = format!("shrinkage of the wall's cob, of which no bar is of a form of {form} ({metric})");
            rows.not_known(path, words);
        }
        return;
    }
    let found = rows.parts::<Ratio>(bars.iter().map(|bar| bar.path("shrinkage-high")));
    let numbered = found.iter().zip(&bars).zip(1..);
    let greatest = numbered.reduce(|one, other| if other.0.0.2 > one.0.0.2 { other } else { one });
    let Some((((_, own, share), bar), number)) = greatest else { return };
    let form = if is_of_code_form(bar) { "" } else { ", of another form than the code's" };
    let title = format!("greatest shrinkage of a bar of the wall's cob, bar {}{form}", bar.name.replace('-', " "));
    let by_bar = (number, own.clone(), *share, title);
    let above = written.iter().find(|(.., written)| written > share).map(|(_, path, written)| {
        let title = String::from("shrinkage of the wall's cob as its recipe says, more than any bar of it");
        (0, path.clone(), *written, title)
    });
    let else_ = if written.is_empty() { "" } else { " (0: its recipe says more than any)" };
    let (number, own, share, title) = above.unwrap_or(by_bar);
    let which = strength::bar_that_counts(number).without("number").of_parts(found).of_parts(written);
    let words = format!("bar of the wall's cob that shrinks most, counted as they are written{else_}");
    rows.add("tests.cob.shrinkage-bar", words, which);
    let answer = bind(strength::bar_as_proof(share).from("of the bar", own), rows, "tests.cob.shrinkage-bar");
    rows.add(path, title, answer);
}

/// A code wants its drips on a brick that leans: those on a panel, or on what is not said, are for the builder alone.
fn is_shown(test: &Erosion) -> bool {
    test.kind != Wash::Drip || test.on == Some(Washed::Brick)
}
