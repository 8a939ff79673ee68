//! The pieces of a bond beam: straight ones that follow a curved line, their laps, planks, bolts and shims.

use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::{Angle, Length, Volume};

formula! {
    /// Length of the bond beam over a straight run, between the corners at its ends.
    ///
    /// ```text
    /// l = L − c₁ − c₂        c₁, c₂: what the rounded corners take off the run
    /// ```
    /// Source: the whole is the sum of its parts; a straight line moved sideways keeps its length.
    pub fn beam_straight(run: Length; trims: Length) -> Length {
        run - trims
    }
}

formula! {
    /// Angle by which the bond beam turns over an arc.
    ///
    /// ```text
    /// θ = (L − c₁ − c₂) / R        c₁, c₂: what the rounded corners take off the run
    /// ```
    /// Source: the definition of the radian.
    pub fn beam_turn(run: Length, radius: Length; trims: Length) -> Angle {
        Angle::rad((run - trims) / radius)
    }
}

formula! {
    /// Angle by which the bond beam turns at a corner; between straight runs it is theirs, whatever the rounding.
    ///
    /// ```text
    /// θ = |angle from the direction of the one run to that of the next|, where the rounding begins and ends
    /// ```
    /// Source: the turning of a rounded corner, elementary geometry.
    pub fn beam_corner(; turn: f64) -> Angle {
        Angle::rad(turn)
    }
}

formula! {
    /// Radius of the middle of the bond beam on a curve.
    ///
    /// ```text
    /// R′ = R + n, where the room lies on the hollow side; R − n on the other
    /// ```
    /// Source: parallel circles have one centre.
    pub fn beam_radius(radius: Length, offset: Length; sign: f64) -> Length {
        radius + sign * offset
    }
}

formula! {
    /// Length of the bond beam along its middle over an arc or a corner.
    ///
    /// ```text
    /// l = θ R′
    /// ```
    /// Source: the definition of the radian.
    pub fn beam_arc(turn: Angle, radius: Length) -> Length {
        turn.in_rad() * radius
    }
}

formula! {
    /// Length of the bond beam along its middle over a run that follows a cubic curve.
    ///
    /// ```text
    /// l = L − c₁ − c₂ + θ n        θ: angle by which the run turns, c₁, c₂: what the rounded corners take off it
    /// ```
    /// Source: length of a parallel curve, differential geometry of plane curves.
    pub fn beam_curve(run: Length, offset: Length; trims: Length, turning: f64) -> Length {
        run - trims + turning * offset
    }
}

formula! {
    /// Straight pieces in one layer over a straight run: as few as the longest timber allows, all of one length.
    ///
    /// ```text
    /// n = l / (p − s), rounded up        p: longest timber, s: length of a scarf
    /// ```
    /// Source: each piece gains its length less a lap.
    pub fn straight_pieces(length: Length, piece: Length, scarf: Length) -> u64 {
        rounded_up(length / (piece - scarf)).max(1)
    }
}

formula! {
    /// Straight pieces in one layer over a curve, none leaving the middle of the beam by more than is allowed.
    ///
    /// On a run that follows a cubic curve the tightest radius counts for all of it.
    ///
    /// ```text
    /// n = l / (R′ θ), rounded up        θ = 2 asin(c / 2R′),  c: the smaller of 2 √(2 R′ f − f²) and p − s
    /// f: how far a piece may leave the curve, p: longest timber, s: length of a scarf
    /// ```
    /// Source: chord and height of an arc, elementary geometry.
    pub fn curved_pieces(length: Length, radius: Length, piece: Length, scarf: Length, fit: Length) -> u64 {
        let (radius_m, fit) = (radius.in_m(), fit.in_m().min(radius.in_m()));
        let by_fit = 2.0 * (2.0 * radius_m * fit - fit * fit).sqrt();
        let chord = by_fit.min((piece - scarf).in_m()).min(2.0 * radius_m);
        let turn = 2.0 * (chord / (2.0 * radius_m)).asin();
        rounded_up(length.in_m() / (radius_m * turn)).max(1)
    }
}

formula! {
    /// Length to which a piece over a straight run is cut, its scarf with it.
    ///
    /// ```text
    /// c = l / n + s
    /// ```
    /// Source: equal parts, each with one lap.
    pub fn straight_cut(length: Length, pieces: u64, scarf: Length) -> Length {
        length / pieces as f64 + scarf
    }
}

formula! {
    /// Length to which a piece over a curve is cut along its middle, its scarf with it.
    ///
    /// ```text
    /// c = 2 R′ sin(l / (2 n R′)) + s
    /// ```
    /// Source: chord of an arc, elementary geometry; one lap to each piece.
    pub fn curved_cut(length: Length, radius: Length, pieces: u64, scarf: Length) -> Length {
        2.0 * radius * (length / (2.0 * pieces as f64 * radius)).sin() + scarf
    }
}

formula! {
    /// Bevel of the ends of each piece, from square: half the angle by which one piece turns from the next.
    ///
    /// ```text
    /// β = θ / (2 n)
    /// ```
    /// Source: a mitre halves the angle between two timbers.
    pub fn bevel(turn: Angle, pieces: u64) -> Angle {
        turn / (2.0 * pieces as f64)
    }
}

formula! {
    /// Bevel of the ends of each piece, from square, where a cubic curve is tightest; elsewhere it is less.
    ///
    /// ```text
    /// β = l / (2 n R′)
    /// ```
    /// Source: a mitre halves the angle between two timbers; the least radius counts.
    pub fn bevel_at_most(length: Length, radius: Length, pieces: u64) -> Angle {
        Angle::rad(length / (2.0 * pieces as f64 * radius))
    }
}

/// Half the angle of one piece at the centre, its cosine taken from 1.
fn rise(length: Length, radius: Length, pieces: u64) -> f64 {
    let quarter = length / (4.0 * pieces as f64 * radius);
    2.0 * quarter.sin() * quarter.sin()
}

formula! {
    /// How far the middle of a straight piece leaves the curve.
    ///
    /// ```text
    /// f = R′ (1 − cos(l / (2 n R′)))
    /// ```
    /// Source: height of an arc over its chord, elementary geometry.
    pub fn sagitta(length: Length, radius: Length, pieces: u64) -> Length {
        radius * rise(length, radius, pieces)
    }
}

formula! {
    /// Width of a plank out of which a piece can be sawn to the curve, as wide as the beam everywhere.
    ///
    /// ```text
    /// w′ = w + (R′ − ½ w) (1 − cos(l / (2 n R′)))
    /// ```
    /// Source: from the ends of the hollow edge to the crown of the round one, elementary geometry.
    pub fn plank_width(width: Length, length: Length, radius: Length, pieces: u64) -> Length {
        width + (radius - 0.5 * width) * rise(length, radius, pieces)
    }
}

formula! {
    /// Pieces of the bond beam in all layers.
    ///
    /// ```text
    /// N = m Σ n        m: layers
    /// ```
    /// Source: the sum of its parts.
    pub fn all_pieces(layers: u64; sum: u64) -> u64 {
        layers * sum
    }
}

formula! {
    /// Length of all pieces of the bond beam as they are cut.
    ///
    /// ```text
    /// l = m Σ n c        m: layers
    /// ```
    /// Source: the sum of its parts.
    pub fn all_cut(layers: u64; sum: Length) -> Length {
        layers as f64 * sum
    }
}

formula! {
    /// The longest piece of the bond beam as it is cut.
    ///
    /// ```text
    /// max c
    /// ```
    /// Source: the largest of its parts; the piece that is longest is named.
    pub fn longest_cut(; longest: Length) -> Length {
        longest
    }
}

formula! {
    /// Scarfs of the bond beam: one from each piece to the next of its layer, all round or from end to end.
    ///
    /// ```text
    /// k = N closed,  N − m from end to end        m: layers
    /// ```
    /// Source: joints between the pieces of a ring, or of a row.
    pub fn beam_scarfs(pieces: u64, layers: u64; is_closed: bool) -> u64 {
        if is_closed { pieces } else { pieces.saturating_sub(layers) }
    }
}

formula! {
    /// Bolts through the scarfs of the bond beam.
    ///
    /// ```text
    /// b = k a        a: bolts through each
    /// ```
    /// Source: the same number in each.
    pub fn beam_bolts(scarfs: u64, each: u64) -> u64 {
        scarfs * each
    }
}

formula! {
    /// Places at which the bond beam lies on a pair of level shims.
    ///
    /// ```text
    /// n = l / a, rounded up
    /// ```
    /// Source: one in each spacing.
    pub fn beam_shims(length: Length, spacing: Length) -> u64 {
        rounded_up(length / spacing)
    }
}

formula! {
    /// Timber out of which the bond beam is cut: planks as wide as their curve asks for, laps with it.
    ///
    /// ```text
    /// V = h Σ n c w′        w′: width of the plank, of a straight piece the beam's own
    /// ```
    /// Source: volume of boards; the layers share the height.
    pub fn beam_timber(height: Length; sum: f64) -> Volume {
        Volume::m3(height.in_m() * sum)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ring_of_six_pieces_is_a_regular_hexagon() {
        let radius = Length::m(2.0);
        let length = beam_arc(Angle::rad(std::f64::consts::TAU), radius).value;
        assert!((curved_cut(length, radius, 6, Length::ZERO).value.in_m() - 2.0).abs() < 1e-15);
        assert!((bevel(Angle::deg(360.0), 6).value.in_deg() - 30.0).abs() < 1e-12);
        let height = sagitta(length, radius, 6).value.in_m();
        assert!((height - (2.0 - 3.0_f64.sqrt())).abs() < 1e-15);
        // A piece that may leave the curve by exactly that far takes six, by a hair less seven.
        let [piece, none] = [Length::m(5.0), Length::ZERO];
        for (fit, count) in [(height, 6), (height * 0.999, 7)] {
            assert_eq!(curved_pieces(length, radius, piece, none, Length::m(fit)).value, count);
        }
    }

    #[test]
    fn the_longest_timber_less_its_scarf_bounds_every_piece() {
        let [piece, scarf] = [Length::m(3.0), Length::m(0.4)];
        assert_eq!(straight_pieces(Length::m(5.2), piece, scarf).value, 2);
        assert_eq!(straight_pieces(Length::m(5.3), piece, scarf).value, 3);
        let (length, radius) = (Length::m(20.0), Length::m(50.0));
        let count = curved_pieces(length, radius, piece, scarf, Length::m(1.0)).value;
        let [one, fewer] = [count, count - 1].map(|count| curved_cut(length, radius, count, scarf).value);
        assert!(one <= piece && fewer > piece, "{count}: {one:?} and {fewer:?}");
    }

    #[test]
    fn a_plank_holds_the_inner_ends_and_the_outer_crown_of_a_sawn_piece() {
        let [width, radius] = [Length::m(0.2), Length::m(1.0)];
        let length = beam_arc(Angle::deg(60.0), radius).value;
        let plank = plank_width(width, length, radius, 1).value.in_m();
        assert!((plank - (1.1 - 0.9 * 0.75_f64.sqrt())).abs() < 1e-15, "{plank}");
    }
}
