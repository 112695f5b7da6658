//! The command line as other programs and people at a terminal meet it.

#![allow(clippy::expect_used, reason = "a test that lacks its material should fall")]

use assert_cmd::Command;
use serde_json::Value;
use std::fs;
use std::process::Output;
use std::time::Duration;

/// By hand: a = (3150 − 500 − 400)/3000 = 0.75 m s⁻², T = 400 + 1200 × 0.75 = 1300 N.
const TRAILER: &str = include_str!("../../../shelf/01-timber-trailer.txt");

fn tautline() -> Command {
    let mut command = Command::cargo_bin("tautline").expect("the program is built");
    command.env_remove("NO_COLOR").timeout(Duration::from_secs(60));
    command
}

fn work(question: impl Into<Vec<u8>>, more: &[&str]) -> Output {
    tautline().args(["work", "-"]).args(more).write_stdin(question).output().expect("it runs")
}

fn json(output: &Output) -> Value {
    serde_json::from_slice(&output.stdout).expect("the output is one JSON value")
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("the output is UTF-8")
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("the messages are UTF-8")
}

fn keys(object: &Value) -> Vec<&str> {
    let mut keys: Vec<&str> = object.as_object().expect("an object").keys().map(String::as_str).collect();
    keys.sort_unstable();
    keys
}

#[test]
fn the_json_of_an_answered_question_has_the_agreed_shape() {
    let output = work(TRAILER, &["--json"]);
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
    let json = json(&output);
    assert_eq!(keys(&json), ["answers", "error", "reading", "routes", "stages"]);
    assert_eq!(keys(&json["reading"]), ["assumed", "ignored", "notes", "phrases", "suggestions", "unread"]);
    assert!(json["error"].is_null());
    assert_eq!(json["reading"]["unread"], serde_json::json!([]));

    let answers = json["answers"].as_array().expect("a list");
    assert_eq!(answers.len(), 2);
    let first = &answers[0];
    for (key, wanted) in [
        ("part", "a"),
        ("quantity", "acceleration"),
        ("exact", "3/4"),
        ("unit", "m s^-2"),
        ("shown", "0.75 m s^-2"),
    ] {
        assert_eq!(first[key], wanted, "{key}");
    }
    assert_eq!(first["value"].as_f64(), Some(0.75));
    assert!(first["asked"].as_str().is_some_and(|a| a.contains("acceleration")));
    assert_eq!((&answers[1]["part"], answers[1]["value"].as_f64()), (&Value::from("b"), Some(1300.0)));

    let routes = json["routes"].as_array().expect("a list");
    assert!(routes.len() >= 2, "a second route checks the first");
    for route in routes {
        assert_eq!(keys(route), ["name", "steps"]);
        for step in route["steps"].as_array().expect("a list") {
            assert_eq!(keys(step), ["direction", "equation", "reason", "result", "system"]);
            assert!(step["system"].as_array().is_some_and(|s| s.iter().all(Value::is_string)));
        }
    }
    for stage in json["stages"].as_array().expect("a list") {
        assert_eq!(keys(stage), ["ends", "regime"]);
    }
}

#[test]
fn places_in_the_json_are_bytes_of_the_question() {
    let question = format!("Überholung – Gleis №3. {TRAILER}");
    for text in [TRAILER, question.as_str()] {
        let json = json(&work(text, &["--json"]));
        let notes = json["reading"]["notes"].as_array().expect("a list");
        let unread = json["reading"]["unread"].as_array().expect("a list");
        let spans = json["error"]["spans"].as_array();
        assert!(!notes.is_empty());
        for place in notes.iter().chain(unread).chain(spans.into_iter().flatten()) {
            let at = |key: &str| place[key].as_u64().and_then(|n| usize::try_from(n).ok()).expect("a number");
            assert_eq!(text.get(at("start")..at("end")), place["text"].as_str(), "{place}");
        }
    }
}

#[test]
fn a_statement_is_answered_in_words() {
    let question =
        format!("{TRAILER}\n\n(c) State how you have used the fact that the tow-bar is light. (1)");
    let json = json(&work(question, &["--json"]));
    assert!(json["error"].is_null(), "{}", json["error"]);
    let answer = &json["answers"][2];
    assert_eq!((answer["part"].as_str(), answer["quantity"].as_str()), (Some("c"), Some("statement")));
    assert!(answer["value"].is_null());
    assert!(answer["text"].as_str().is_some_and(|t| t.contains("tow-bar")), "{answer}");
}

#[test]
fn a_question_that_is_not_understood_says_where() {
    let question =
        TRAILER.replace("constant driving force of 3150 N", "driving force that doubles every second");
    let output = work(question.clone(), &["--json"]);
    assert_eq!(output.status.code(), Some(1));
    let json = json(&output);
    assert_eq!(keys(&json["error"]), ["kind", "message", "spans"]);
    assert_eq!(json["error"]["kind"], "unread");
    assert_eq!((&json["answers"], &json["routes"]), (&serde_json::json!([]), &serde_json::json!([])));
    let spans = json["error"]["spans"].as_array().expect("a list");
    assert!(!spans.is_empty());
    assert!(spans.iter().all(|s| keys(s) == ["end", "start", "text"]));

    let told = err(&work(question, &[]));
    assert!(told.contains("not understood") && told.contains("doubles every"), "{told}");
}

#[test]
fn every_phrase_is_told_in_order_and_what_may_be_said_instead() {
    let question = "At Marram Quay a crate of mass 5 kg is pulled along a smooth horizontal floor by a horizontal force \
                    of 20 N. The floor is greasy. Find the acceleration of the crate.";
    let refused = json(&work(question, &["--json"]));
    let suggestion = &refused["reading"]["suggestions"][0];
    assert_eq!(
        (suggestion["text"].as_str(), suggestion["replacement"].as_str()),
        (Some("greasy"), Some("smooth"))
    );

    // By hand: 20/5 = 4.
    let output = work(question, &["--json", "--ignore", "greasy"]);
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
    let json = json(&output);
    assert_eq!(json["answers"][0]["exact"], "4");
    assert_eq!(json["reading"]["ignored"][0]["text"], "greasy");
    let phrases = json["reading"]["phrases"].as_array().expect("a list");
    let places: Vec<u64> = phrases.iter().filter_map(|p| p["start"].as_u64()).collect();
    assert!(places.is_sorted(), "{places:?}");
    let sort = |text: &str| {
        phrases.iter().find(|p| p["text"].as_str().is_some_and(|t| t.contains(text))).map(|p| &p["sort"])
    };
    assert_eq!(sort("Marram").and_then(Value::as_str), Some("scene"));
    assert_eq!(sort("smooth").and_then(Value::as_str), Some("told"));
    assert_eq!(sort("greasy").and_then(Value::as_str), Some("ignored"));

    let text = out(&work(question, &["--ignore", "greasy"]));
    assert!(
        text.contains("“greasy”: ignored at your wish") && text.contains("only sets the scene"),
        "{text}"
    );
    // What tells something cannot be ignored.
    let clash = work(question, &["--ignore", "greasy", "--ignore", "20 N"]);
    assert_eq!(clash.status.code(), Some(1));
    assert!(err(&clash).contains("20 N"), "{}", err(&clash));
}

#[test]
fn rubbish_is_refused_without_a_fall() {
    let noise: String = (0..250_000_u32)
        .map(|n| ['q', ' ', 'x', '('][(n.wrapping_mul(2_654_435_761) >> 13) as usize % 4])
        .collect();
    let megabyte = noise.repeat(4);
    let brackets = "(".repeat(19_000);
    let cases: [(&str, Vec<u8>); 14] = [
        ("empty", Vec::new()),
        ("blank", b" \n\t \r\n ".to_vec()),
        ("off-topic", b"The tide went out on Marram Quay, the ropes hung slack.".to_vec()),
        ("not UTF-8", b"A truck of mass \xff\xfe kg".to_vec()),
        ("UTF-16", "A truck of mass 3 kg".encode_utf16().flat_map(u16::to_le_bytes).chain([0xff]).collect()),
        ("right to left", "משאית במסה 5 ק\"ג גוררת עגלה \u{202e}kg 3 fo kcurt A. מצא את התאוצה".into()),
        ("a megabyte of noise", megabyte.clone().into_bytes()),
        ("more than a megabyte", (megabyte + "kg").into_bytes()),
        ("NUL bytes", TRAILER.replace(' ', "\0").into_bytes()),
        ("brackets", brackets.into_bytes()),
        ("dollars", "$".repeat(9_999).into_bytes()),
        ("one long number", "9".repeat(15_000).into_bytes()),
        ("numbers alone", "3 kg 4 N 5 m s^-2 ".repeat(1_000).into_bytes()),
        ("escapes", b"\x1b[2J\x1b]0;title\x07 A truck \x1b[31m of mass 3 kg".to_vec()),
    ];
    for (name, bytes) in cases {
        let output = work(bytes.clone(), &["--json"]);
        assert_eq!(output.status.code(), Some(1), "{name}: {}", err(&output));
        let kind = json(&output)["error"]["kind"].as_str().unwrap_or_default().to_owned();
        let kinds = ["unread", "incomplete", "contradictory", "undetermined", "impossible", "off-topic"];
        assert!(kinds.contains(&kind.as_str()), "{name}: {kind:?}");

        let output = work(bytes, &[]);
        assert_eq!(output.status.code(), Some(1), "{name}");
        let told = err(&output);
        assert!(!told.trim().is_empty() && !told.contains("panicked"), "{name}: {told}");
        assert!(
            !told.contains('\u{1b}') && !told.contains('\u{202e}'),
            "{name}: nothing that a terminal obeys"
        );
    }
}

#[test]
fn bytes_that_are_no_text_are_told_by_their_place() {
    let output = work(b"A crate of mass 5\xc3\x28 kg".as_slice(), &["--json"]);
    let json = json(&output);
    assert_eq!(json["error"]["kind"], "unread");
    assert!(json["error"]["message"].as_str().is_some_and(|m| m.contains("offset 17")), "{json}");
    assert_eq!(keys(&json), ["answers", "error", "reading", "routes", "stages"], "every key all the same");
}

#[test]
fn misuse_ends_with_status_two() {
    for arguments in [
        vec!["work"],
        vec!["work", "no-such-question.txt"],
        vec!["work", "-", "--figures", "0"],
        vec!["wokr", "-"],
        vec!["work", "-", "--html", "no/such/folder/page.html"],
        vec!["--port", "70000"],
    ] {
        let output = tautline().args(&arguments).write_stdin(TRAILER).output().expect("it runs");
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {}", err(&output));
        assert!(!output.stderr.is_empty(), "{arguments:?} says why");
    }
}

#[test]
fn the_text_is_plain_and_keeps_within_eighty_columns() {
    let output = work(TRAILER, &[]);
    assert_eq!(output.status.code(), Some(0));
    let text = out(&output);
    for words in ["Reading", "Answers", "Working", "Part (b)", "0.75 m s⁻²", "1300 N", "Checks", "Caution"]
    {
        assert!(text.contains(words), "{words:?} is missing in\n{text}");
    }
    assert!(!text.contains('\u{1b}'), "no colour into a pipe");
    assert!(text.lines().all(|l| l.chars().count() <= 80), "{text}");
}

#[test]
fn a_reader_that_goes_away_is_no_error() {
    let script = format!("'{}' work - | head -n 1", assert_cmd::cargo::cargo_bin("tautline").display());
    let output =
        Command::new("sh").args(["-c", &script]).write_stdin(TRAILER).output().expect("a shell runs");
    assert!(output.stderr.is_empty(), "{}", err(&output));
}

#[test]
fn pages_and_pictures_are_written_whole() {
    let folder = tempfile::tempdir().expect("a folder for the test");
    let at = |name: &str| folder.path().join(name);
    let question = at("trailer.txt");
    fs::write(&question, TRAILER).expect("the question is written");

    tautline()
        .arg("work")
        .arg(&question)
        .arg("--html")
        .arg(at("t.html"))
        .arg("--pdf")
        .arg(at("t.pdf"))
        .assert()
        .success();
    let html = fs::read_to_string(at("t.html")).expect("the page is there");
    assert!(html.contains("<math") && html.contains("Forces on the trailer"));
    assert!(fs::read(at("t.pdf")).expect("the print is there").starts_with(b"%PDF"));

    tautline().arg("figure").arg(&question).arg("-o").arg(at("all.svg")).assert().success();
    let all = fs::read_to_string(at("all.svg")).expect("the picture is there");
    assert_eq!(
        (all.matches("<svg").count(), all.matches("</svg>").count()),
        (5, 5),
        "four figures on a sheet"
    );

    let pictures = at("pictures");
    fs::create_dir(&pictures).expect("a folder for the pictures");
    tautline()
        .arg("figure")
        .arg(&question)
        .args(["--which", "forces", "-o"])
        .arg(&pictures)
        .assert()
        .success();
    assert_eq!(fs::read_dir(&pictures).expect("the folder is there").count(), 3);

    let left: Vec<_> =
        fs::read_dir(folder.path()).expect("the folder is there").flatten().map(|e| e.file_name()).collect();
    assert_eq!(left.len(), 5, "no draft is left behind: {left:?}");
}

#[test]
fn a_refused_question_has_a_page_that_says_why_but_no_picture() {
    let folder = tempfile::tempdir().expect("a folder for the test");
    let (page, picture) = (folder.path().join("page.html"), folder.path().join("picture.svg"));
    let question =
        TRAILER.replace("constant driving force of 3150 N", "driving force that doubles every second");
    let run = |arguments: &[&std::ffi::OsStr]| {
        tautline().args(arguments).write_stdin(question.as_str()).output().expect("it runs").status.code()
    };
    assert_eq!(run(&["work".as_ref(), "-".as_ref(), "--html".as_ref(), page.as_ref()]), Some(1));
    assert!(fs::read_to_string(&page).expect("the page is there").contains("not understood"));
    assert_eq!(run(&["figure".as_ref(), "-".as_ref(), "-o".as_ref(), picture.as_ref()]), Some(1));
    assert!(!picture.exists());
}

#[test]
fn the_help_shows_how_to_begin() {
    for arguments in [vec!["--help"], vec!["work", "--help"], vec!["figure", "--help"]] {
        let output = tautline().args(&arguments).output().expect("it runs");
        assert_eq!(output.status.code(), Some(0));
        assert!(out(&output).contains("Examples:"), "{arguments:?}");
    }
}
