//! Rows of gradings: what is finer than the sizes of the trade, sand, silt and clay with their error, how dense the grains pack.

use super::hydrometer;
use crate::build::SEPARATES;
use crate::earth::soil::{self, Curve};
use crate::earth::tables::number;
use crate::house::{Found, Grading, GradingPoint, GradingSieve, House, Sieved};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Length, Ratio};

/// The sizes that are read off a curve: noun of the row, name of the fact, words.
const SIZES: [(&str, &str, &str); 4] = [
    ("finer.clay", "clay-m", "finer than silt, under 0.002 mm, in"),
    ("finer.silt", "silt-m", "finer than sand, under 0.05 mm, in"),
    ("finer.fine", "fine-m", "under 0.425 mm, on which limits are measured, in"),
    ("finer.sand", "sand-m", "finer than stones, under 2 mm, in"),
];

pub(super) fn walk(house: &House, rows: &mut Rows) {
    for grading in &house.gradings {
        Graded { grading }.walk(rows);
    }
}

/// One grading.
struct Graded<'a> {
    grading: &'a Grading,
}

impl Graded<'_> {
    fn path(&self, noun: &str) -> String {
        self.grading.path(noun)
    }

    fn title(&self, words: &str) -> String {
        let (name, of) = (self.grading.name.replace('-', " "), self.grading.of.replace('-', " "));
        format!("{words} {of}, grading {name}")
    }

    fn walk(&self, rows: &mut Rows) {
        let grading = self.grading;
        if let Some(day) = &grading.day {
            rows.known(self.title("day of the grading of"), day);
        }
        match &grading.found {
            Found::Shares(shares) => {
                let error = self.error(rows);
                for (separate, share) in SEPARATES.iter().zip(shares.iter()) {
                    let share = rows.known(self.title(&format!("{separate} by dry mass in")), share);
                    let path = self.path(&format!("shares.{separate}"));
                    self.band(separate, (path, share), error, rows);
                }
            }
            Found::Sieves(sieved) => self.sieves(sieved, rows),
        }
    }

    /// How far its shares may be off, as it is written or assumed.
    fn error(&self, rows: &mut Rows) -> Ratio {
        rows.known(self.title("how far sand, silt and clay may be off in"), &self.grading.error)
    }

    fn sieves(&self, sieved: &Sieved, rows: &mut Rows) {
        for sieve in &sieved.sieves {
            let name = &sieve.name;
            rows.known(self.title(&format!("size of sieve {name} of")), &sieve.size);
            rows.known(self.title(&format!("what passes sieve {name} of")), &sieve.passing);
        }
        let largest = rows.known(self.title("largest grain of"), &sieved.largest);
        if let Some(read) = &sieved.hydrometer {
            hydrometer::walk(self.grading, read, rows);
        }
        let points = sieved.points(&self.grading.stem());
        let curve = points.iter().map(|point| soil::Sieve { size: point.size.0, passing: point.passing.0 });
        let Ok(curve) = Curve::through(&curve.collect::<Vec<_>>()) else { return };
        for (noun, fact, words) in SIZES {
            let size = Length::m(number(fact));
            if let Some(finer) = curve.finer_than(size) {
                let answer = beside(soil::finer_by_curve(finer), &points, |point| (point.size.0, size));
                rows.add(self.path(noun), self.title(words), answer);
            }
        }
        let error = match &sieved.hydrometer {
            Some(read) => hydrometer::error(self.grading, read, rows),
            None => self.error(rows),
        };
        self.separates(error, rows);
        self.spread(&curve, &points, rows);
        // All grains pass what is as wide as the largest, in any mix.
        for sieve in sieved.sieves.iter().filter(|sieve| sieve.size.value < largest) {
            self.densest(sieve, largest, rows);
        }
    }

    /// Sand, silt and clay of what is under 2 mm, where the curve reaches as far.
    fn separates(&self, error: Ratio, rows: &mut Rows) {
        let finer = ["finer.clay", "finer.silt", "finer.sand"].map(|noun| rows.value::<Ratio>(&self.path(noun)));
        let [Some(clay), Some(silt), Some(sand)] = finer else {
            let words = "sand, silt and clay (the curve must reach from 0.002 to 2 mm: read a hydrometer) of";
            return rows.not_known(self.path("clay"), self.title(words));
        };
        let ends = [
            ("sand", sand, Some((silt, "finer.silt"))),
            ("silt", silt, Some((clay, "finer.clay"))),
            ("clay", clay, None),
        ];
        for (separate, above, below) in ends {
            let share = soil::share_of_fine_earth(above, below.map_or(Ratio::ZERO, |below| below.0), sand)
                .from("above", self.path(&format!("finer.{separate}")))
                .from("whole", self.path("finer.sand"));
            let share = match below {
                Some((_, noun)) => share.from("below", self.path(noun)),
                None => share.without("below"),
            };
            let path = self.path(separate);
            let share = rows.add(path.as_str(), self.title(&format!("{separate} in what is under 2 mm of")), share);
            self.band(separate, (path, share), error, rows);
        }
    }

    /// A share with what it may be off.
    fn band(&self, separate: &str, (path, share): (String, Ratio), error: Ratio, rows: &mut Rows) {
        let bound = |answer: Answer<Ratio>| answer.from("share", path.as_str()).from("error", self.path("error"));
        let title = |word: &str| self.title(&format!("{word} {separate} by dry mass in"));
        rows.add(self.path(&format!("{separate}-low")), title("least"), bound(soil::less_the_error(share, error)));
        rows.add(self.path(&format!("{separate}-high")), title("greatest"), bound(soil::and_the_error(share, error)));
    }

    /// How wide the curve is spread, and whether a size is missing in it.
    fn spread(&self, curve: &Curve, points: &[GradingPoint], rows: &mut Rows) {
        let sizes = [("d10", 0.1, "a tenth"), ("d30", 0.3, "three tenths"), ("d60", 0.6, "six tenths")];
        let [d10, d30, d60] = sizes.map(|(noun, share, words)| {
            let share = Ratio::fraction(share);
            let size = curve.size_at(share)?;
            let answer = beside(soil::grain_by_curve(size), points, |point| (point.passing.0, share));
            Some(rows.add(
                self.path(noun),
                self.title(&format!("grain that {words} of the mass are finer than, in")),
                answer,
            ))
        });
        let (Some(d10), Some(d60)) = (d10, d60) else { return };
        let wide =
            soil::coefficient_of_uniformity(d60, d10).from("d60", self.path("d60")).from("d10", self.path("d10"));
        rows.add(self.path("uniformity"), self.title("how wide the grains are spread, d60 over d10, of"), wide);
        let Some(d30) = d30 else { return };
        let even = soil::coefficient_of_curvature(d30, d10, d60)
            .from("d30", self.path("d30"))
            .from("d10", self.path("d10"))
            .from("d60", self.path("d60"));
        rows.add(self.path("curvature"), self.title("whether a size is missing (from 1 to 3 none is) in"), even);
    }

    /// What passes a sieve where grains pack densest, round ones and angular ones, and how far this grading lies from it.
    fn densest(&self, sieve: &GradingSieve, largest: Length, rows: &mut Rows) {
        let path = |noun: &str| self.path(&format!("sieves.{}.{noun}", sieve.name));
        let title = |words: &str| self.title(&format!("{words} sieve {} of", sieve.name));
        for (noun, fact, words) in [
            ("densest", "fuller-power", "what passes, of the mix of round grains that packs densest,"),
            (
                "densest-angular",
                "fuller-power-angular",
                "what passes, of the mix of angular grains that packs densest,",
            ),
        ] {
            let answer = soil::fuller(sieve.size.value, largest, number(fact)).without("power");
            let answer = answer.from("sieve", path("size")).from("largest grain", self.path("largest"));
            rows.add(path(noun), title(words), answer);
        }
        let Some(densest) = rows.value::<Ratio>(&path("densest")) else { return };
        let over = soil::over_densest(sieve.passing.value, densest)
            .from("passing", path("passing"))
            .from("densest", path("densest"));
        rows.add(path("over-densest"), title("what passes over the densest mix of round grains,"), over);
    }
}

/// Names what a place of the curve is read from: the two points beside it, or the one that it lies on.
fn beside<T, V: PartialOrd>(
    answer: Answer<T>,
    points: &[GradingPoint],
    place: impl Fn(&GradingPoint) -> (V, V),
) -> Answer<T> {
    let is_on = |point: &&GradingPoint| {
        let (own, wanted) = place(point);
        own == wanted
    };
    let is_past = |point: &GradingPoint| {
        let (own, wanted) = place(point);
        own > wanted
    };
    let on = points.iter().find(is_on);
    let after = points.iter().position(is_past).unwrap_or(points.len());
    let pair = after.checked_sub(1).map_or(&points[..0], |before| &points[before..points.len().min(after + 1)]);
    on.map_or(pair, std::slice::from_ref).iter().fold(answer, |answer, point| {
        answer.with(format!("size of {}", point.name), point.size.0, point.size.1.as_str()).with(
            format!("passing {}", point.name),
            point.passing.0,
            point.passing.1.as_str(),
        )
    })
}
