//! The worked page of a question, answered and refused.

#![allow(clippy::expect_used, reason = "a test that lacks its material should fall")]

use model::{Basis, Builder, Diagnostic, Direction, Form, Known, Line, Refusal, Role, Span, State};
use words::{Note, PartRead, Reading};
use worked::{Settings, Worked};

const QUESTION: &str = "A tug tractor of mass 1800 kg tows a trailer of mass 1200 kg at Marram Quay. \
The driving force is 3000 N.\n\n(a) Find the acceleration.\n\n(b) Find the tension in the tow-bar.";

fn place(words: &str) -> Span {
    let start = QUESTION.find(words).expect("the words stand in the question");
    Span::new(start, start + words.len())
}

/// The tug tractor and its trailer, as a reader would hand it on.
fn reading() -> Reading {
    let mut b = Builder::new();
    let tractor = b.body("the tractor", "tractor", Form::Vehicle, Line::Level, Some(1800.into()));
    let trailer = b.body("the trailer", "trailer", Form::Trailer, Line::Level, Some(1200.into()));
    let bar = b.tow("the tow-bar", tractor, trailer);
    let drive = b.act(Role::Driving, "the driving force", tractor, Direction::Along(1));
    let stage = b.stage(State::Moving);
    let size = b.situation().stages[0].forces[drive.0];
    let basis = Basis::Given(place("3000 N"));
    b.know_as(size, Known { value: 3000.into(), written: "3000 N".to_owned(), basis, from_part: 0 });
    b.situation_mut().actions[drive.0].span = Some(place("driving force"));
    b.heading(stage, tractor, 1);
    b.ask_acceleration("a", stage, tractor);
    b.ask_link("b", stage, bar);
    Reading {
        situation: b.finish(),
        notes: vec![
            Note { span: place("mass 1800 kg"), means: "mass of the tractor: 1800 kg".to_owned() },
            Note { span: place("driving force"), means: "the driving force acts on the tractor".to_owned() },
        ],
        scene: vec![place("at Marram Quay")],
        parts: vec![PartRead { label: String::new(), marks: None }],
        ..Reading::default()
    }
}

fn page(worked: &Worked) -> String {
    paper::html_page(&paper::page::document(worked))
}

#[test]
fn an_answered_question_has_its_working_its_answers_and_its_figures() {
    let worked = worked::work_situation(QUESTION, reading(), &Settings::default());
    assert!(worked.answered(), "{:?}", worked.diagnostics);
    let html = page(&worked);
    for words in [
        "The question",
        "mass of the tractor: 1800 kg",
        "Worked solution",
        "Part (a)",
        "Part (b)",
        "Forces on the trailer",
        "Acceleration of the tractor",
        "local codes",
    ] {
        assert!(html.contains(words), "{words:?} is missing");
    }
    // By hand: a = 3000/3000 = 1 m s^-2 and T = 1200 × 1 N.
    let said: Vec<&str> = worked.work.iter().flat_map(|w| &w.answers).map(|a| a.exact.as_str()).collect();
    assert_eq!(said, ["1", "1200"]);
}

#[test]
fn a_phrase_its_arrow_and_its_term_share_a_tie() {
    let worked = worked::work_situation(QUESTION, reading(), &Settings::default());
    let drive = worked.solved[0].forces.iter().find(|f| f.name.contains("driving")).expect("it acts");
    let tie = format!("data-tie=\"force-{}\"", drive.id.0);
    let html = page(&worked);
    assert!(html.matches(&tie).count() >= 3, "phrase, arrow and term: {}", html.matches(&tie).count());
}

#[test]
fn a_refused_question_says_why_and_where() {
    let trouble = Diagnostic::refuse(Refusal::Contradictory, "the driving force is given twice")
        .at(place("3000 N"))
        .hint("leave out one of the two");
    let reading = Reading { diagnostics: vec![trouble], ..reading() };
    let worked = worked::work_situation(QUESTION, reading, &Settings::default());
    assert!(worked.work.is_none());
    let html = page(&worked);
    for words in
        ["not answered", "The driving force is given twice.", "“3000 N”", "Leave out one of the two."]
    {
        assert!(html.contains(words), "{words:?} is missing");
    }
}

#[test]
fn both_pages_print() {
    let answered = worked::work_situation(QUESTION, reading(), &Settings::default());
    let refused = worked::work("", &Settings::default());
    for worked in [answered, refused] {
        let pdf = paper::pdf(&paper::page::document(&worked)).expect("the page is laid out");
        assert!(pdf.starts_with(b"%PDF"));
    }
}
