//! A straight pole rafter that falls one way, on two or more supports with its ends over them: the same zones, the same extremes.

use super::super::STANDARD_GRAVITY_M_S2;
use super::super::poles::Pole;
use super::answers::{Found, Places, factors, sections};
use super::build::{Built, Row};
use super::cases::{ZONES, line, point};
use super::envelope::{Here, Most, Under, at_place, here, least};
use super::worst::Place;
use super::{At, Combination, Extra, Fault, Feet, Lasting, Left, OnPole, Wood, Worst};
use crate::solve::frame::{Frame, LoadCase, Member, MemberLoad, Node, Section, Support};
use crate::units::{Angle, Force, Length};

/// A rafter and what it lies on. It is straight, whatever its bow; its butt is its low end.
#[derive(Clone, Debug, PartialEq)]
pub struct Straight {
    /// The pole.
    pub pole: Pole,
    /// Where it lies on plates and beams, from its butt, in order; two or more.
    pub supports: Vec<Length>,
    /// How steep it lies.
    pub pitch: Angle,
    /// How wide a strip of roof it carries, in plan.
    pub spacing: Length,
}

/// The answers of a rafter to its own weight, to each zone and to each extra load.
#[derive(Clone, Debug)]
pub struct StraightAnswers {
    found: Vec<Found>,
    places: Places,
    supports: Vec<f64>,
    /// The middles of the spans, then butt and tip.
    sags: Vec<f64>,
    extras: usize,
}

/// The extremes of a rafter.
#[derive(Clone, Debug, PartialEq)]
pub struct Beam {
    /// Anywhere along it.
    pub anywhere: Here,
    /// At each support.
    pub supports: Vec<Bearing>,
    /// How far the middle of each span sinks, at once, then butt and tip.
    pub sags: Vec<Most<Length>>,
}

/// The extremes at one support of a rafter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bearing {
    /// Moment, shear, pull and push there.
    pub here: Here,
    /// Greatest force up.
    pub up: Most<Force>,
    /// Least force up; below zero the rafter must be held down here.
    pub least: Most<Force>,
}

/// Into how many parts each stretch between supports, middles and ends is divided for its sections.
const PARTS: u32 = 8;

impl Straight {
    /// Solves every basic load case once: own weight; on the area in plan between the outer supports the low half and the high
    /// half, then the low and the high end; the extra loads, all on pole 0.
    ///
    /// # Errors
    /// Sizes that no rafter has, a load beside it.
    pub fn answers(&self, wood: &Wood, extras: &[Extra]) -> Result<StraightAnswers, Fault> {
        let bearings: Vec<f64> = self.supports.iter().map(|at| at.in_m()).collect();
        let long = self.pole.length.in_m();
        let level = self.pitch.in_rad().cos();
        let in_order = bearings.windows(2).all(|pair| pair[0] < pair[1]);
        let (Some(&first), Some(&last)) = (bearings.first(), bearings.last()) else {
            return Err(Fault::Size("two supports or more, in order along each rafter"));
        };
        if !(bearings.len() > 1 && in_order && first >= 0.0 && last <= long) {
            return Err(Fault::Size("two supports or more, in order along each rafter"));
        }
        if !(level > 0.0 && self.spacing > Length::ZERO) {
            return Err(Fault::Size("rafters that lie, with a spacing above zero"));
        }
        let middles: Vec<f64> = bearings.windows(2).map(|pair| 0.5 * (pair[0] + pair[1])).collect();
        let mut stops: Vec<f64> = bearings.iter().chain(&middles).copied().chain([0.0, long]).collect();
        stops.sort_by(f64::total_cmp);
        stops.dedup();
        let built = self.build(wood, &bearings, stops);
        let whole = built.factorise()?;
        let cases = self.cases(wood, &built, extras, [first, 0.5 * (first + last), last])?;
        let solved = whole.solve(&cases).map_err(Fault::Frame)?;
        let row = built.rows.iter().flatten().next().ok_or(Fault::NoCombination)?;
        let node = |at: f64| row.stops.iter().position(|stop| *stop == at).unwrap_or(0);
        let sags: Vec<f64> = middles.into_iter().chain([0.0, long]).collect();
        let mut found = Vec::with_capacity(cases.len());
        for (answer, case) in solved.iter().zip(&cases) {
            found.push(Found {
                sections: vec![sections(&built, row, (&whole, case, answer), |_| PARTS)?],
                sags: sags.iter().map(|at| [-answer.movements[node(*at)][2], 0.0, 0.0, 0.0]).collect(),
                crossings: Vec::new(),
                feet: bearings.iter().map(|at| [0.0, 0.0, answer.reactions[node(*at)][2]]).collect(),
            });
        }
        let places = Places::of(&row.stops, |_| PARTS, [first, 0.5 * (first + last), last, last, long]);
        Ok(StraightAnswers { found, places, supports: bearings, sags, extras: extras.len() })
    }

    fn build(&self, wood: &Wood, bearings: &[f64], stops: Vec<f64>) -> Built {
        let (rise, level) = self.pitch.in_rad().sin_cos();
        let point = |along: f64| [along * level, 0.0, along * rise];
        let mut frame = Frame { nodes: stops.iter().map(|&at| Node::free(point(at))).collect(), ..Frame::default() };
        for (node, at) in frame.nodes.iter_mut().zip(&stops) {
            let bears = bearings.contains(at);
            let is_first = bearings.first() == Some(at);
            // The first support holds it lengthwise too, and keeps it from rolling and from swinging.
            let fast = [is_first, bears, bears, is_first, false, is_first];
            node.support = fast.map(|fast| if fast { Support::Fast } else { Support::Free });
        }
        let moduli = [wood.young.in_pa(), wood.shear.in_pa()];
        for (index, pair) in stops.windows(2).enumerate() {
            let [first, last] = [pair[0], pair[1]].map(|at| self.pole.diameter(Length::m(at)).in_m());
            let section = Section::Round { first, last };
            frame.members.push(Member::new([index, index + 1], [0.0, 0.0, 1.0], moduli, section));
        }
        let axes = [[level, 0.0, rise], [0.0, 1.0, 0.0], [-rise, 0.0, level]];
        let row = Row { stops, node: 0, member: 0, at: [0; 4], foot: 0, axes, rests: None };
        Built { frame, rows: vec![Some(row)] }
    }

    fn cases(
        &self,
        wood: &Wood,
        built: &Built,
        extras: &[Extra],
        [first, middle, last]: [f64; 3],
    ) -> Result<Vec<LoadCase>, Fault> {
        let down = -wood.density.in_kg_m3() * STANDARD_GRAVITY_M_S2;
        let body = |member| (member, MemberLoad::Body { on_volume: [0.0, 0.0, down] });
        let members = (0..built.frame.members.len()).map(body).collect();
        let mut all = vec![LoadCase { members, ..LoadCase::default() }];
        let wide = self.spacing.in_m() * self.pitch.in_rad().cos();
        let long = self.pole.length.in_m();
        let zones: [[f64; 2]; ZONES] = [[first, middle], [middle, last], [0.0, first], [last, long]];
        for span in zones {
            let mut case = LoadCase::default();
            line(built, 0, span, [wide; 2], &mut case);
            all.push(case);
        }
        let on_it = |at: Length| at >= Length::ZERO && at <= self.pole.length;
        for extra in extras {
            let mut case = LoadCase::default();
            for load in &extra.loads {
                match *load {
                    OnPole::Point { pole: 0, at, down } if on_it(at) => {
                        point(built, 0, at.in_m(), down.in_n(), &mut case);
                    }
                    OnPole::Line { pole: 0, span, down } if span.into_iter().all(on_it) && span[0] < span[1] => {
                        line(built, 0, span.map(Length::in_m), down.map(|load| load.in_n_m()), &mut case);
                    }
                    OnPole::Point { pole, .. } | OnPole::Line { pole, .. } => return Err(Fault::Load(pole)),
                }
            }
            all.push(case);
        }
        Ok(all)
    }
}

impl StraightAnswers {
    /// Superposes the basic answers for each combination and keeps the extremes. Zones count as low half, high half, low end,
    /// high end.
    ///
    /// # Errors
    /// No combination at all.
    pub fn envelope(&self, combinations: &[Combination]) -> Result<Beam, Fault> {
        let under = |(combination, own): (usize, &Combination)| Under {
            found: Found::together(&self.found, &factors(own, self.extras)),
            combination,
            feet: Feet::Sliding,
        };
        let all: Vec<Under> = combinations.iter().enumerate().map(under).collect();
        if all.is_empty() {
            return Err(Fault::NoCombination);
        }
        let bearing = |(number, &at): (usize, &f64)| Bearing {
            here: here(&all, &self.places, 0, |along| (along - at).abs() < 1e-9),
            up: at_place(&all, at, |found| found.feet[number][2]).of(Force::n),
            least: least(&all, at, |found| found.feet[number][2]).of(Force::n),
        };
        let sag = |(number, &at): (usize, &f64)| at_place(&all, at, |found| found.sags[number][0]).of(Length::m);
        Ok(Beam {
            anywhere: here(&all, &self.places, 0, |_| true),
            supports: self.supports.iter().enumerate().map(bearing).collect(),
            sags: self.sags.iter().enumerate().map(sag).collect(),
        })
    }
}

impl StraightAnswers {
    /// What each basic load presses on its first and its last support: own weight, the zones, the extra loads.
    #[must_use]
    pub fn on_seats(&self) -> Vec<[Force; 2]> {
        let last = self.supports.len() - 1;
        self.found.iter().map(|found| [0, last].map(|seat| Force::n(found.feet[seat][2]))).collect()
    }

    /// How many of each basic load a combination takes, in their order.
    #[must_use]
    pub fn shares(&self, combination: &Combination) -> Vec<f64> {
        factors(combination, self.extras)
    }

    /// The force up from a seat that uses most of the wood, `lasting` being its factor for the time of each combination.
    #[must_use]
    pub fn pressed(&self, seat: usize, combinations: &[Combination], lasting: &[f64]) -> Option<At<Force>> {
        let factor = |combination: usize| lasting.get(combination).copied().unwrap_or(1.0);
        self.seated(seat, combinations, |up, combination| up / factor(combination))
    }

    /// The greatest force by which a seat must be held down; none where nothing lifts it.
    #[must_use]
    pub fn lifted(&self, seat: usize, combinations: &[Combination]) -> Option<At<Force>> {
        let least = self.seated(seat, combinations, |up, _| -up).filter(|at| at.value < Force::ZERO);
        least.map(|at| At { value: -at.value, ..at })
    }

    fn seated(&self, seat: usize, combinations: &[Combination], of: impl Fn(f64, usize) -> f64) -> Option<At<Force>> {
        let up = |own: &Combination| {
            let factors = factors(own, self.extras);
            self.found.iter().zip(&factors).map(|(found, factor)| factor * found.feet[seat][2]).sum::<f64>()
        };
        let all: Vec<f64> = combinations.iter().map(up).collect();
        let most = (0..all.len()).max_by(|&one, &other| of(all[one], one).total_cmp(&of(all[other], other)))?;
        Some(At { value: Force::n(all[most]), combination: most, feet: Feet::Sliding })
    }
}

impl Straight {
    /// The greatest shares used of a rafter; `seats` is what is left of it at each of its supports.
    #[must_use]
    pub fn worst(&self, answers: &StraightAnswers, seats: &[Left], under: &Lasting<'_>) -> Worst {
        let place = |&along: &f64| {
            let cut = answers.supports.iter().zip(seats).find(|(at, _)| (along - **at).abs() < 1e-9);
            let diameter = self.pole.diameter(Length::m(along)).in_m();
            Place { along, diameter, cut: cut.map(|(_, left)| *left) }
        };
        let places: Vec<Place> = answers.places.along.iter().map(place).collect();
        let factors: Vec<Vec<f64>> = under.combinations.iter().map(|one| factors(one, answers.extras)).collect();
        let mut worst = Worst::default();
        worst.search((Feet::Sliding, &answers.found), 0, &places, (&factors, under.bears));
        worst
    }
}

#[cfg(test)]
mod tests {
    use super::super::laws::WOOD;
    use super::*;
    use crate::units::{LineLoad, Pressure};

    fn rafter(supports: &[f64], pitch_deg: f64, butt_mm: f64) -> Straight {
        let mm = Length::mm;
        let pole =
            Pole { length: Length::m(5.0), butt: mm(butt_mm), tip: mm(120.0), bow: mm(0.0), bow_turn: Angle::ZERO };
        let supports = supports.iter().map(|at| Length::m(*at)).collect();
        Straight { pole, supports, pitch: Angle::deg(pitch_deg), spacing: mm(600.0) }
    }

    fn loaded(areas: [f64; 4]) -> [Combination; 1] {
        [Combination { name: "one".into(), weight: 0.0, areas: areas.map(Pressure::pa), extras: vec![1.0] }]
    }

    fn near(found: f64, told: f64) {
        assert!((found - told).abs() <= 1e-9 * told.abs().max(1.0), "{found} is not {told}");
    }

    #[test]
    fn an_even_rafter_from_end_to_end_is_the_simple_beam() {
        let rafter = rafter(&[0.0, 5.0], 12.0, 120.0);
        let most = rafter.answers(&WOOD, &[]).unwrap().envelope(&loaded([2000.0; 4])).unwrap();
        // w l²/8, w l/2, 5 w l⁴ / (384 E I) with the load across and the length along the slope, from memory.
        let (level, across) = (12.0_f64.to_radians().cos(), 2000.0 * 0.6 * 12.0_f64.to_radians().cos());
        near(most.anywhere.moment.value.in_n_m(), across * level * 25.0 / 8.0);
        near(most.supports[1].up.value.in_n(), across * 2.5);
        let second = std::f64::consts::PI * 0.12_f64.powi(4) / 64.0;
        let sunk = 5.0 * across * level * 625.0 / (384.0 * 1e10 * second) * level;
        let found = most.sags[0].value.in_m();
        assert!((found / sunk - 1.0).abs() < 1e-3, "{found} {sunk}: the push along it shortens it a little");
    }

    #[test]
    fn over_three_supports_the_middle_one_takes_five_quarters_of_a_span() {
        let rafter = rafter(&[0.0, 2.5, 5.0], 0.0, 120.0);
        let most = rafter.answers(&WOOD, &[]).unwrap().envelope(&loaded([1000.0; 4])).unwrap();
        // Two equal spans: 3/8, 10/8, 3/8 of w l, and − w l²/8 over the middle, from memory.
        let span = 600.0 * 2.5;
        near(most.supports[0].up.value.in_n(), 0.375 * span);
        near(most.supports[1].up.value.in_n(), 1.25 * span);
        near(most.supports[1].here.moment.value.in_n_m(), span * 2.5 / 8.0);
    }

    #[test]
    fn supports_carry_the_load_and_a_loaded_end_lifts_the_other() {
        let rafter = rafter(&[0.8, 4.3], 10.0, 160.0);
        let person = OnPole::Point { pole: 0, at: Length::m(5.0), down: Force::kn(1.0) };
        let strip = OnPole::Line { pole: 0, span: [Length::m(1.0), Length::m(2.0)], down: [LineLoad::n_m(0.0); 2] };
        let extra = Extra { name: "person".into(), loads: vec![person, strip] };
        let answers = rafter.answers(&WOOD, std::slice::from_ref(&extra)).unwrap();
        let most = answers.envelope(&loaded([0.0, 0.0, 0.0, 500.0])).unwrap();
        let up: f64 = most.supports.iter().map(|bearing| bearing.up.value.in_n()).sum();
        near(up, 1000.0 + 500.0 * 0.6 * 0.7 * 10.0_f64.to_radians().cos());
        assert!(most.supports[0].least.value < Force::ZERO, "held down at the low end");
        assert_eq!(
            rafter
                .answers(
                    &WOOD,
                    &[Extra { loads: vec![OnPole::Point { pole: 1, at: Length::ZERO, down: Force::ZERO }], ..extra }]
                )
                .unwrap_err(),
            Fault::Load(1)
        );
    }

    #[test]
    fn what_a_rafter_presses_on_its_two_seats_is_what_lies_on_it() {
        let rafter = rafter(&[0.8, 4.3], 10.0, 160.0);
        let person = OnPole::Point { pole: 0, at: Length::m(5.0), down: Force::kn(1.0) };
        let extra = Extra { name: "person".into(), loads: vec![person] };
        let on_seats = rafter.answers(&WOOD, std::slice::from_ref(&extra)).unwrap().on_seats();
        let level = 10.0_f64.to_radians().cos();
        // A frustum of a cone; then a pascal on half the span, on the other half, on either end; then the person.
        let volume = std::f64::consts::PI * 5.0 / 12.0 * (0.16 * 0.16 + 0.16 * 0.12 + 0.12 * 0.12);
        let strip = |long: f64| 0.6 * level * long;
        let own = volume * WOOD.density.in_kg_m3() * STANDARD_GRAVITY_M_S2;
        let told = [own, strip(1.75), strip(1.75), strip(0.8), strip(0.7), 1000.0];
        assert_eq!(on_seats.len(), told.len());
        for (seats, told) in on_seats.iter().zip(told) {
            near(seats.iter().map(|seat| seat.in_n()).sum(), told);
        }
        // Levers about the low seat.
        near(on_seats[1][1].in_n(), strip(1.75) * 0.25);
        near(on_seats[5][1].in_n(), 1000.0 * 4.2 / 3.5);
    }

    #[test]
    fn a_rafter_without_two_supports_is_refused() {
        for supports in [&[1.0][..], &[], &[3.0, 1.0], &[1.0, 6.0]] {
            assert!(
                rafter(supports, 10.0, 120.0).answers(&WOOD, &[]).unwrap_err().to_string().contains("two supports")
            );
        }
    }
}
