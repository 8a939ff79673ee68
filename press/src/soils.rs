//! The drawings that tested soils have.

use engine::answers::Answers;

/// The names of the drawings of tested soils: the triangle where anything says sand, silt and clay, the plasticity chart,
/// and each grading that has a curve.
#[must_use]
pub fn drawn(answers: &Answers) -> Vec<String> {
    let says = ["tests.jars.*.clay-low", "tests.gradings.*.clay-low"];
    let is_told = says.into_iter().any(|pattern| answers.rows.matching(pattern).next().is_some());
    let curves = answers.rows.matching("tests.gradings.*.largest");
    let curves = curves.filter_map(|row| Some(format!("grading-{}", row.path.split('.').nth(2)?)));
    let chart = answers.rows.matching("tests.limits.*.index").next().map(|_| "plasticity".to_owned());
    is_told.then(|| "texture".to_owned()).into_iter().chain(chart).chain(curves).collect()
}
