// @ts-nocheck
// Made from shared/session.schema.json by scripts/generate-tables.mjs; do not edit.
import type { SessionValidator } from './schemaError.js';
import { sessionSchema } from './sessionSchema.generated.js';

export const validateSession: SessionValidator = validate10;
const schema11 = sessionSchema;
const schema21 = {"description":"rows of wavelength in nm and fraction, ascending","type":"array","minItems":2,"items":{"type":"array","minItems":2,"maxItems":2,"items":[{"type":"number","exclusiveMinimum":0},{"type":"number","minimum":0,"maximum":1}]}};
const schema25 = {"description":"from where on a halo is too much: of the kind share, surface or noise","type":"object","required":["kind"],"properties":{"kind":{"enum":["share","surface","noise"]},"atMost":{"description":"share of the star's light, above 0 and below 1","type":"number","exclusiveMinimum":0,"exclusiveMaximum":1},"atLeast":{"description":"magnitudes per square arcsecond above the star's magnitude","type":"number","minimum":-50,"maximum":50},"hours":{"description":"of exposure, above 0","type":"number","exclusiveMinimum":0},"electronsPerCount":{"description":"of the image, above 0","type":"number","exclusiveMinimum":0},"brighterBy":{"description":"magnitudes by which the star to think of is brighter than this one; left out: 0","type":"number","minimum":-50,"maximum":50},"sky":{"description":"electrons per second and pixel through the filter; left out: worked out for the site","type":"number","minimum":0},"dark":{"description":"electrons per second and pixel; left out: as in site","type":"number","minimum":0},"readNoise":{"description":"electrons; left out: as in site","type":"number","minimum":0},"frameS":{"description":"length of a frame in s, above 0; left out: as in site, or that of the image","type":"number","exclusiveMinimum":0},"pixels":{"description":"of the patch within which the mean is taken, at least 1; left out: 100","type":"number","minimum":1},"threshold":{"description":"signal to noise at which it is seen, above 0; left out: 5","type":"number","exclusiveMinimum":0}},"allOf":[{"if":{"required":["kind"],"properties":{"kind":{"const":"share"}}},"then":{"required":["atMost"]}},{"if":{"required":["kind"],"properties":{"kind":{"const":"surface"}}},"then":{"required":["atLeast"]}},{"if":{"required":["kind"],"properties":{"kind":{"const":"noise"}}},"then":{"required":["hours","electronsPerCount"]}}]};
const pattern0 = new RegExp("^\\d{4}-\\d{2}-\\d{2}(T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?)?$", "u");
const pattern1 = new RegExp("^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?$", "u");
const pattern2 = new RegExp("^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$", "u");
const func2 = (text) => Array.from(text).length;
const schema12 = {"type":"object","allOf":[{"$ref":"#/definitions/claimForm"}],"properties":{"value":{"type":"number","exclusiveMinimum":0},"tolerance":{"$ref":"#/definitions/tolerance"},"atLeast":{"type":"number","exclusiveMinimum":0},"atMost":{"type":"number","exclusiveMinimum":0}}};
const schema13 = {"description":"exactly one of value, atLeast and atMost","oneOf":[{"required":["value"]},{"required":["atLeast"]},{"required":["atMost"]}]};
const schema14 = {"description":"a number above 0, or [minus, plus] with both at least 0 and one above 0","anyOf":[{"type":"number","exclusiveMinimum":0},{"type":"array","minItems":2,"maxItems":2,"items":[{"type":"number","minimum":0},{"type":"number","minimum":0}],"contains":{"type":"number","exclusiveMinimum":0}}]};

function validate11(data, {instancePath="", parentData, parentDataProperty, rootData=data}={}){
let vErrors = null;
let errors = 0;
const _errs3 = errors;
let valid2 = false;
let passing0 = null;
const _errs4 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.value === undefined){
const err0 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/0/required",keyword:"required",params:{missingProperty: "value"},message:"must have required property '"+"value"+"'",schema:schema13.oneOf[0].required,parentSchema:schema13.oneOf[0],data};
if(vErrors === null){
vErrors = [err0];
}
else {
vErrors.push(err0);
}
errors++;
}
}
var _valid0 = _errs4 === errors;
if(_valid0){
valid2 = true;
passing0 = 0;
}
const _errs5 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.atLeast === undefined){
const err1 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/1/required",keyword:"required",params:{missingProperty: "atLeast"},message:"must have required property '"+"atLeast"+"'",schema:schema13.oneOf[1].required,parentSchema:schema13.oneOf[1],data};
if(vErrors === null){
vErrors = [err1];
}
else {
vErrors.push(err1);
}
errors++;
}
}
var _valid0 = _errs5 === errors;
if(_valid0 && valid2){
valid2 = false;
passing0 = [passing0, 1];
}
else {
if(_valid0){
valid2 = true;
passing0 = 1;
}
const _errs6 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.atMost === undefined){
const err2 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/2/required",keyword:"required",params:{missingProperty: "atMost"},message:"must have required property '"+"atMost"+"'",schema:schema13.oneOf[2].required,parentSchema:schema13.oneOf[2],data};
if(vErrors === null){
vErrors = [err2];
}
else {
vErrors.push(err2);
}
errors++;
}
}
var _valid0 = _errs6 === errors;
if(_valid0 && valid2){
valid2 = false;
passing0 = [passing0, 2];
}
else {
if(_valid0){
valid2 = true;
passing0 = 2;
}
}
}
if(!valid2){
const err3 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf",keyword:"oneOf",params:{passingSchemas: passing0},message:"must match exactly one schema in oneOf",schema:schema13.oneOf,parentSchema:schema13,data};
if(vErrors === null){
vErrors = [err3];
}
else {
vErrors.push(err3);
}
errors++;
}
else {
errors = _errs3;
if(vErrors !== null){
if(_errs3){
vErrors.length = _errs3;
}
else {
vErrors = null;
}
}
}
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.value !== undefined){
let data0 = data.value;
if((typeof data0 == "number") && (isFinite(data0))){
if(data0 <= 0 || isNaN(data0)){
const err4 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema12.properties.value,data:data0};
if(vErrors === null){
vErrors = [err4];
}
else {
vErrors.push(err4);
}
errors++;
}
}
else {
const err5 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema12.properties.value.type,parentSchema:schema12.properties.value,data:data0};
if(vErrors === null){
vErrors = [err5];
}
else {
vErrors.push(err5);
}
errors++;
}
}
if(data.tolerance !== undefined){
let data1 = data.tolerance;
const _errs11 = errors;
let valid5 = false;
const _errs12 = errors;
if((typeof data1 == "number") && (isFinite(data1))){
if(data1 <= 0 || isNaN(data1)){
const err6 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema14.anyOf[0],data:data1};
if(vErrors === null){
vErrors = [err6];
}
else {
vErrors.push(err6);
}
errors++;
}
}
else {
const err7 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[0].type,parentSchema:schema14.anyOf[0],data:data1};
if(vErrors === null){
vErrors = [err7];
}
else {
vErrors.push(err7);
}
errors++;
}
var _valid1 = _errs12 === errors;
valid5 = valid5 || _valid1;
if(!valid5){
const _errs14 = errors;
if(Array.isArray(data1)){
if(data1.length > 2){
const err8 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err8];
}
else {
vErrors.push(err8);
}
errors++;
}
if(data1.length < 2){
const err9 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err9];
}
else {
vErrors.push(err9);
}
errors++;
}
const len0 = data1.length;
if(len0 > 0){
let data2 = data1[0];
if((typeof data2 == "number") && (isFinite(data2))){
if(data2 < 0 || isNaN(data2)){
const err10 = {instancePath:instancePath+"/tolerance/0",schemaPath:"#/definitions/tolerance/anyOf/1/items/0/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema14.anyOf[1].items[0],data:data2};
if(vErrors === null){
vErrors = [err10];
}
else {
vErrors.push(err10);
}
errors++;
}
}
else {
const err11 = {instancePath:instancePath+"/tolerance/0",schemaPath:"#/definitions/tolerance/anyOf/1/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].items[0].type,parentSchema:schema14.anyOf[1].items[0],data:data2};
if(vErrors === null){
vErrors = [err11];
}
else {
vErrors.push(err11);
}
errors++;
}
}
if(len0 > 1){
let data3 = data1[1];
if((typeof data3 == "number") && (isFinite(data3))){
if(data3 < 0 || isNaN(data3)){
const err12 = {instancePath:instancePath+"/tolerance/1",schemaPath:"#/definitions/tolerance/anyOf/1/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema14.anyOf[1].items[1],data:data3};
if(vErrors === null){
vErrors = [err12];
}
else {
vErrors.push(err12);
}
errors++;
}
}
else {
const err13 = {instancePath:instancePath+"/tolerance/1",schemaPath:"#/definitions/tolerance/anyOf/1/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].items[1].type,parentSchema:schema14.anyOf[1].items[1],data:data3};
if(vErrors === null){
vErrors = [err13];
}
else {
vErrors.push(err13);
}
errors++;
}
}
const _errs20 = errors;
const len1 = data1.length;
for(let i0=0; i0<len1; i0++){
let data4 = data1[i0];
const _errs21 = errors;
if((typeof data4 == "number") && (isFinite(data4))){
if(data4 <= 0 || isNaN(data4)){
const err14 = {instancePath:instancePath+"/tolerance/" + i0,schemaPath:"#/definitions/tolerance/anyOf/1/contains/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema14.anyOf[1].contains,data:data4};
if(vErrors === null){
vErrors = [err14];
}
else {
vErrors.push(err14);
}
errors++;
}
}
else {
const err15 = {instancePath:instancePath+"/tolerance/" + i0,schemaPath:"#/definitions/tolerance/anyOf/1/contains/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].contains.type,parentSchema:schema14.anyOf[1].contains,data:data4};
if(vErrors === null){
vErrors = [err15];
}
else {
vErrors.push(err15);
}
errors++;
}
var valid7 = _errs21 === errors;
if(valid7){
break;
}
}
if(!valid7){
const err16 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/contains",keyword:"contains",params:{minContains: 1},message:"must contain at least 1 valid item(s)",schema:schema14.anyOf[1].contains,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err16];
}
else {
vErrors.push(err16);
}
errors++;
}
else {
errors = _errs20;
if(vErrors !== null){
if(_errs20){
vErrors.length = _errs20;
}
else {
vErrors = null;
}
}
}
}
else {
const err17 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema14.anyOf[1].type,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err17];
}
else {
vErrors.push(err17);
}
errors++;
}
var _valid1 = _errs14 === errors;
valid5 = valid5 || _valid1;
}
if(!valid5){
const err18 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema14.anyOf,parentSchema:schema14,data:data1};
if(vErrors === null){
vErrors = [err18];
}
else {
vErrors.push(err18);
}
errors++;
}
else {
errors = _errs11;
if(vErrors !== null){
if(_errs11){
vErrors.length = _errs11;
}
else {
vErrors = null;
}
}
}
}
if(data.atLeast !== undefined){
let data5 = data.atLeast;
if((typeof data5 == "number") && (isFinite(data5))){
if(data5 <= 0 || isNaN(data5)){
const err19 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema12.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err19];
}
else {
vErrors.push(err19);
}
errors++;
}
}
else {
const err20 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema12.properties.atLeast.type,parentSchema:schema12.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err20];
}
else {
vErrors.push(err20);
}
errors++;
}
}
if(data.atMost !== undefined){
let data6 = data.atMost;
if((typeof data6 == "number") && (isFinite(data6))){
if(data6 <= 0 || isNaN(data6)){
const err21 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema12.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err21];
}
else {
vErrors.push(err21);
}
errors++;
}
}
else {
const err22 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema12.properties.atMost.type,parentSchema:schema12.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err22];
}
else {
vErrors.push(err22);
}
errors++;
}
}
}
else {
const err23 = {instancePath,schemaPath:"#/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema12.type,parentSchema:schema12,data};
if(vErrors === null){
vErrors = [err23];
}
else {
vErrors.push(err23);
}
errors++;
}
validate11.errors = vErrors;
return errors === 0;
}

const schema15 = {"type":"object","allOf":[{"$ref":"#/definitions/claimForm"}],"properties":{"value":{"description":"a fraction, 0 to 1","type":"number","minimum":0,"maximum":1},"tolerance":{"$ref":"#/definitions/tolerance"},"atLeast":{"description":"a fraction, 0 to 1","type":"number","minimum":0,"maximum":1},"atMost":{"description":"a fraction, 0 to 1","type":"number","minimum":0,"maximum":1}}};

function validate14(data, {instancePath="", parentData, parentDataProperty, rootData=data}={}){
let vErrors = null;
let errors = 0;
const _errs3 = errors;
let valid2 = false;
let passing0 = null;
const _errs4 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.value === undefined){
const err0 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/0/required",keyword:"required",params:{missingProperty: "value"},message:"must have required property '"+"value"+"'",schema:schema13.oneOf[0].required,parentSchema:schema13.oneOf[0],data};
if(vErrors === null){
vErrors = [err0];
}
else {
vErrors.push(err0);
}
errors++;
}
}
var _valid0 = _errs4 === errors;
if(_valid0){
valid2 = true;
passing0 = 0;
}
const _errs5 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.atLeast === undefined){
const err1 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/1/required",keyword:"required",params:{missingProperty: "atLeast"},message:"must have required property '"+"atLeast"+"'",schema:schema13.oneOf[1].required,parentSchema:schema13.oneOf[1],data};
if(vErrors === null){
vErrors = [err1];
}
else {
vErrors.push(err1);
}
errors++;
}
}
var _valid0 = _errs5 === errors;
if(_valid0 && valid2){
valid2 = false;
passing0 = [passing0, 1];
}
else {
if(_valid0){
valid2 = true;
passing0 = 1;
}
const _errs6 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.atMost === undefined){
const err2 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/2/required",keyword:"required",params:{missingProperty: "atMost"},message:"must have required property '"+"atMost"+"'",schema:schema13.oneOf[2].required,parentSchema:schema13.oneOf[2],data};
if(vErrors === null){
vErrors = [err2];
}
else {
vErrors.push(err2);
}
errors++;
}
}
var _valid0 = _errs6 === errors;
if(_valid0 && valid2){
valid2 = false;
passing0 = [passing0, 2];
}
else {
if(_valid0){
valid2 = true;
passing0 = 2;
}
}
}
if(!valid2){
const err3 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf",keyword:"oneOf",params:{passingSchemas: passing0},message:"must match exactly one schema in oneOf",schema:schema13.oneOf,parentSchema:schema13,data};
if(vErrors === null){
vErrors = [err3];
}
else {
vErrors.push(err3);
}
errors++;
}
else {
errors = _errs3;
if(vErrors !== null){
if(_errs3){
vErrors.length = _errs3;
}
else {
vErrors = null;
}
}
}
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.value !== undefined){
let data0 = data.value;
if((typeof data0 == "number") && (isFinite(data0))){
if(data0 > 1 || isNaN(data0)){
const err4 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema15.properties.value,data:data0};
if(vErrors === null){
vErrors = [err4];
}
else {
vErrors.push(err4);
}
errors++;
}
if(data0 < 0 || isNaN(data0)){
const err5 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema15.properties.value,data:data0};
if(vErrors === null){
vErrors = [err5];
}
else {
vErrors.push(err5);
}
errors++;
}
}
else {
const err6 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema15.properties.value.type,parentSchema:schema15.properties.value,data:data0};
if(vErrors === null){
vErrors = [err6];
}
else {
vErrors.push(err6);
}
errors++;
}
}
if(data.tolerance !== undefined){
let data1 = data.tolerance;
const _errs11 = errors;
let valid5 = false;
const _errs12 = errors;
if((typeof data1 == "number") && (isFinite(data1))){
if(data1 <= 0 || isNaN(data1)){
const err7 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema14.anyOf[0],data:data1};
if(vErrors === null){
vErrors = [err7];
}
else {
vErrors.push(err7);
}
errors++;
}
}
else {
const err8 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[0].type,parentSchema:schema14.anyOf[0],data:data1};
if(vErrors === null){
vErrors = [err8];
}
else {
vErrors.push(err8);
}
errors++;
}
var _valid1 = _errs12 === errors;
valid5 = valid5 || _valid1;
if(!valid5){
const _errs14 = errors;
if(Array.isArray(data1)){
if(data1.length > 2){
const err9 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err9];
}
else {
vErrors.push(err9);
}
errors++;
}
if(data1.length < 2){
const err10 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err10];
}
else {
vErrors.push(err10);
}
errors++;
}
const len0 = data1.length;
if(len0 > 0){
let data2 = data1[0];
if((typeof data2 == "number") && (isFinite(data2))){
if(data2 < 0 || isNaN(data2)){
const err11 = {instancePath:instancePath+"/tolerance/0",schemaPath:"#/definitions/tolerance/anyOf/1/items/0/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema14.anyOf[1].items[0],data:data2};
if(vErrors === null){
vErrors = [err11];
}
else {
vErrors.push(err11);
}
errors++;
}
}
else {
const err12 = {instancePath:instancePath+"/tolerance/0",schemaPath:"#/definitions/tolerance/anyOf/1/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].items[0].type,parentSchema:schema14.anyOf[1].items[0],data:data2};
if(vErrors === null){
vErrors = [err12];
}
else {
vErrors.push(err12);
}
errors++;
}
}
if(len0 > 1){
let data3 = data1[1];
if((typeof data3 == "number") && (isFinite(data3))){
if(data3 < 0 || isNaN(data3)){
const err13 = {instancePath:instancePath+"/tolerance/1",schemaPath:"#/definitions/tolerance/anyOf/1/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema14.anyOf[1].items[1],data:data3};
if(vErrors === null){
vErrors = [err13];
}
else {
vErrors.push(err13);
}
errors++;
}
}
else {
const err14 = {instancePath:instancePath+"/tolerance/1",schemaPath:"#/definitions/tolerance/anyOf/1/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].items[1].type,parentSchema:schema14.anyOf[1].items[1],data:data3};
if(vErrors === null){
vErrors = [err14];
}
else {
vErrors.push(err14);
}
errors++;
}
}
const _errs20 = errors;
const len1 = data1.length;
for(let i0=0; i0<len1; i0++){
let data4 = data1[i0];
const _errs21 = errors;
if((typeof data4 == "number") && (isFinite(data4))){
if(data4 <= 0 || isNaN(data4)){
const err15 = {instancePath:instancePath+"/tolerance/" + i0,schemaPath:"#/definitions/tolerance/anyOf/1/contains/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema14.anyOf[1].contains,data:data4};
if(vErrors === null){
vErrors = [err15];
}
else {
vErrors.push(err15);
}
errors++;
}
}
else {
const err16 = {instancePath:instancePath+"/tolerance/" + i0,schemaPath:"#/definitions/tolerance/anyOf/1/contains/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].contains.type,parentSchema:schema14.anyOf[1].contains,data:data4};
if(vErrors === null){
vErrors = [err16];
}
else {
vErrors.push(err16);
}
errors++;
}
var valid7 = _errs21 === errors;
if(valid7){
break;
}
}
if(!valid7){
const err17 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/contains",keyword:"contains",params:{minContains: 1},message:"must contain at least 1 valid item(s)",schema:schema14.anyOf[1].contains,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err17];
}
else {
vErrors.push(err17);
}
errors++;
}
else {
errors = _errs20;
if(vErrors !== null){
if(_errs20){
vErrors.length = _errs20;
}
else {
vErrors = null;
}
}
}
}
else {
const err18 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema14.anyOf[1].type,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err18];
}
else {
vErrors.push(err18);
}
errors++;
}
var _valid1 = _errs14 === errors;
valid5 = valid5 || _valid1;
}
if(!valid5){
const err19 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema14.anyOf,parentSchema:schema14,data:data1};
if(vErrors === null){
vErrors = [err19];
}
else {
vErrors.push(err19);
}
errors++;
}
else {
errors = _errs11;
if(vErrors !== null){
if(_errs11){
vErrors.length = _errs11;
}
else {
vErrors = null;
}
}
}
}
if(data.atLeast !== undefined){
let data5 = data.atLeast;
if((typeof data5 == "number") && (isFinite(data5))){
if(data5 > 1 || isNaN(data5)){
const err20 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema15.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err20];
}
else {
vErrors.push(err20);
}
errors++;
}
if(data5 < 0 || isNaN(data5)){
const err21 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema15.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err21];
}
else {
vErrors.push(err21);
}
errors++;
}
}
else {
const err22 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema15.properties.atLeast.type,parentSchema:schema15.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err22];
}
else {
vErrors.push(err22);
}
errors++;
}
}
if(data.atMost !== undefined){
let data6 = data.atMost;
if((typeof data6 == "number") && (isFinite(data6))){
if(data6 > 1 || isNaN(data6)){
const err23 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema15.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err23];
}
else {
vErrors.push(err23);
}
errors++;
}
if(data6 < 0 || isNaN(data6)){
const err24 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema15.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err24];
}
else {
vErrors.push(err24);
}
errors++;
}
}
else {
const err25 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema15.properties.atMost.type,parentSchema:schema15.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err25];
}
else {
vErrors.push(err25);
}
errors++;
}
}
}
else {
const err26 = {instancePath,schemaPath:"#/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema15.type,parentSchema:schema15,data};
if(vErrors === null){
vErrors = [err26];
}
else {
vErrors.push(err26);
}
errors++;
}
validate14.errors = vErrors;
return errors === 0;
}

const schema18 = {"type":"object","allOf":[{"$ref":"#/definitions/claimForm"}],"required":["fromNm","toNm"],"properties":{"value":{"type":"number","minimum":0},"tolerance":{"$ref":"#/definitions/tolerance"},"atLeast":{"type":"number","minimum":0},"atMost":{"type":"number","minimum":0},"fromNm":{"type":"number","exclusiveMinimum":0},"toNm":{"description":"above fromNm","type":"number","exclusiveMinimum":0}}};

function validate17(data, {instancePath="", parentData, parentDataProperty, rootData=data}={}){
let vErrors = null;
let errors = 0;
const _errs3 = errors;
let valid2 = false;
let passing0 = null;
const _errs4 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.value === undefined){
const err0 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/0/required",keyword:"required",params:{missingProperty: "value"},message:"must have required property '"+"value"+"'",schema:schema13.oneOf[0].required,parentSchema:schema13.oneOf[0],data};
if(vErrors === null){
vErrors = [err0];
}
else {
vErrors.push(err0);
}
errors++;
}
}
var _valid0 = _errs4 === errors;
if(_valid0){
valid2 = true;
passing0 = 0;
}
const _errs5 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.atLeast === undefined){
const err1 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/1/required",keyword:"required",params:{missingProperty: "atLeast"},message:"must have required property '"+"atLeast"+"'",schema:schema13.oneOf[1].required,parentSchema:schema13.oneOf[1],data};
if(vErrors === null){
vErrors = [err1];
}
else {
vErrors.push(err1);
}
errors++;
}
}
var _valid0 = _errs5 === errors;
if(_valid0 && valid2){
valid2 = false;
passing0 = [passing0, 1];
}
else {
if(_valid0){
valid2 = true;
passing0 = 1;
}
const _errs6 = errors;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.atMost === undefined){
const err2 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf/2/required",keyword:"required",params:{missingProperty: "atMost"},message:"must have required property '"+"atMost"+"'",schema:schema13.oneOf[2].required,parentSchema:schema13.oneOf[2],data};
if(vErrors === null){
vErrors = [err2];
}
else {
vErrors.push(err2);
}
errors++;
}
}
var _valid0 = _errs6 === errors;
if(_valid0 && valid2){
valid2 = false;
passing0 = [passing0, 2];
}
else {
if(_valid0){
valid2 = true;
passing0 = 2;
}
}
}
if(!valid2){
const err3 = {instancePath,schemaPath:"#/definitions/claimForm/oneOf",keyword:"oneOf",params:{passingSchemas: passing0},message:"must match exactly one schema in oneOf",schema:schema13.oneOf,parentSchema:schema13,data};
if(vErrors === null){
vErrors = [err3];
}
else {
vErrors.push(err3);
}
errors++;
}
else {
errors = _errs3;
if(vErrors !== null){
if(_errs3){
vErrors.length = _errs3;
}
else {
vErrors = null;
}
}
}
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.fromNm === undefined){
const err4 = {instancePath,schemaPath:"#/required",keyword:"required",params:{missingProperty: "fromNm"},message:"must have required property '"+"fromNm"+"'",schema:schema18.required,parentSchema:schema18,data};
if(vErrors === null){
vErrors = [err4];
}
else {
vErrors.push(err4);
}
errors++;
}
if(data.toNm === undefined){
const err5 = {instancePath,schemaPath:"#/required",keyword:"required",params:{missingProperty: "toNm"},message:"must have required property '"+"toNm"+"'",schema:schema18.required,parentSchema:schema18,data};
if(vErrors === null){
vErrors = [err5];
}
else {
vErrors.push(err5);
}
errors++;
}
if(data.value !== undefined){
let data0 = data.value;
if((typeof data0 == "number") && (isFinite(data0))){
if(data0 < 0 || isNaN(data0)){
const err6 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema18.properties.value,data:data0};
if(vErrors === null){
vErrors = [err6];
}
else {
vErrors.push(err6);
}
errors++;
}
}
else {
const err7 = {instancePath:instancePath+"/value",schemaPath:"#/properties/value/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema18.properties.value.type,parentSchema:schema18.properties.value,data:data0};
if(vErrors === null){
vErrors = [err7];
}
else {
vErrors.push(err7);
}
errors++;
}
}
if(data.tolerance !== undefined){
let data1 = data.tolerance;
const _errs11 = errors;
let valid5 = false;
const _errs12 = errors;
if((typeof data1 == "number") && (isFinite(data1))){
if(data1 <= 0 || isNaN(data1)){
const err8 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema14.anyOf[0],data:data1};
if(vErrors === null){
vErrors = [err8];
}
else {
vErrors.push(err8);
}
errors++;
}
}
else {
const err9 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[0].type,parentSchema:schema14.anyOf[0],data:data1};
if(vErrors === null){
vErrors = [err9];
}
else {
vErrors.push(err9);
}
errors++;
}
var _valid1 = _errs12 === errors;
valid5 = valid5 || _valid1;
if(!valid5){
const _errs14 = errors;
if(Array.isArray(data1)){
if(data1.length > 2){
const err10 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err10];
}
else {
vErrors.push(err10);
}
errors++;
}
if(data1.length < 2){
const err11 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err11];
}
else {
vErrors.push(err11);
}
errors++;
}
const len0 = data1.length;
if(len0 > 0){
let data2 = data1[0];
if((typeof data2 == "number") && (isFinite(data2))){
if(data2 < 0 || isNaN(data2)){
const err12 = {instancePath:instancePath+"/tolerance/0",schemaPath:"#/definitions/tolerance/anyOf/1/items/0/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema14.anyOf[1].items[0],data:data2};
if(vErrors === null){
vErrors = [err12];
}
else {
vErrors.push(err12);
}
errors++;
}
}
else {
const err13 = {instancePath:instancePath+"/tolerance/0",schemaPath:"#/definitions/tolerance/anyOf/1/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].items[0].type,parentSchema:schema14.anyOf[1].items[0],data:data2};
if(vErrors === null){
vErrors = [err13];
}
else {
vErrors.push(err13);
}
errors++;
}
}
if(len0 > 1){
let data3 = data1[1];
if((typeof data3 == "number") && (isFinite(data3))){
if(data3 < 0 || isNaN(data3)){
const err14 = {instancePath:instancePath+"/tolerance/1",schemaPath:"#/definitions/tolerance/anyOf/1/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema14.anyOf[1].items[1],data:data3};
if(vErrors === null){
vErrors = [err14];
}
else {
vErrors.push(err14);
}
errors++;
}
}
else {
const err15 = {instancePath:instancePath+"/tolerance/1",schemaPath:"#/definitions/tolerance/anyOf/1/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].items[1].type,parentSchema:schema14.anyOf[1].items[1],data:data3};
if(vErrors === null){
vErrors = [err15];
}
else {
vErrors.push(err15);
}
errors++;
}
}
const _errs20 = errors;
const len1 = data1.length;
for(let i0=0; i0<len1; i0++){
let data4 = data1[i0];
const _errs21 = errors;
if((typeof data4 == "number") && (isFinite(data4))){
if(data4 <= 0 || isNaN(data4)){
const err16 = {instancePath:instancePath+"/tolerance/" + i0,schemaPath:"#/definitions/tolerance/anyOf/1/contains/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema14.anyOf[1].contains,data:data4};
if(vErrors === null){
vErrors = [err16];
}
else {
vErrors.push(err16);
}
errors++;
}
}
else {
const err17 = {instancePath:instancePath+"/tolerance/" + i0,schemaPath:"#/definitions/tolerance/anyOf/1/contains/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema14.anyOf[1].contains.type,parentSchema:schema14.anyOf[1].contains,data:data4};
if(vErrors === null){
vErrors = [err17];
}
else {
vErrors.push(err17);
}
errors++;
}
var valid7 = _errs21 === errors;
if(valid7){
break;
}
}
if(!valid7){
const err18 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/contains",keyword:"contains",params:{minContains: 1},message:"must contain at least 1 valid item(s)",schema:schema14.anyOf[1].contains,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err18];
}
else {
vErrors.push(err18);
}
errors++;
}
else {
errors = _errs20;
if(vErrors !== null){
if(_errs20){
vErrors.length = _errs20;
}
else {
vErrors = null;
}
}
}
}
else {
const err19 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf/1/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema14.anyOf[1].type,parentSchema:schema14.anyOf[1],data:data1};
if(vErrors === null){
vErrors = [err19];
}
else {
vErrors.push(err19);
}
errors++;
}
var _valid1 = _errs14 === errors;
valid5 = valid5 || _valid1;
}
if(!valid5){
const err20 = {instancePath:instancePath+"/tolerance",schemaPath:"#/definitions/tolerance/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema14.anyOf,parentSchema:schema14,data:data1};
if(vErrors === null){
vErrors = [err20];
}
else {
vErrors.push(err20);
}
errors++;
}
else {
errors = _errs11;
if(vErrors !== null){
if(_errs11){
vErrors.length = _errs11;
}
else {
vErrors = null;
}
}
}
}
if(data.atLeast !== undefined){
let data5 = data.atLeast;
if((typeof data5 == "number") && (isFinite(data5))){
if(data5 < 0 || isNaN(data5)){
const err21 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema18.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err21];
}
else {
vErrors.push(err21);
}
errors++;
}
}
else {
const err22 = {instancePath:instancePath+"/atLeast",schemaPath:"#/properties/atLeast/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema18.properties.atLeast.type,parentSchema:schema18.properties.atLeast,data:data5};
if(vErrors === null){
vErrors = [err22];
}
else {
vErrors.push(err22);
}
errors++;
}
}
if(data.atMost !== undefined){
let data6 = data.atMost;
if((typeof data6 == "number") && (isFinite(data6))){
if(data6 < 0 || isNaN(data6)){
const err23 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema18.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err23];
}
else {
vErrors.push(err23);
}
errors++;
}
}
else {
const err24 = {instancePath:instancePath+"/atMost",schemaPath:"#/properties/atMost/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema18.properties.atMost.type,parentSchema:schema18.properties.atMost,data:data6};
if(vErrors === null){
vErrors = [err24];
}
else {
vErrors.push(err24);
}
errors++;
}
}
if(data.fromNm !== undefined){
let data7 = data.fromNm;
if((typeof data7 == "number") && (isFinite(data7))){
if(data7 <= 0 || isNaN(data7)){
const err25 = {instancePath:instancePath+"/fromNm",schemaPath:"#/properties/fromNm/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema18.properties.fromNm,data:data7};
if(vErrors === null){
vErrors = [err25];
}
else {
vErrors.push(err25);
}
errors++;
}
}
else {
const err26 = {instancePath:instancePath+"/fromNm",schemaPath:"#/properties/fromNm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema18.properties.fromNm.type,parentSchema:schema18.properties.fromNm,data:data7};
if(vErrors === null){
vErrors = [err26];
}
else {
vErrors.push(err26);
}
errors++;
}
}
if(data.toNm !== undefined){
let data8 = data.toNm;
if((typeof data8 == "number") && (isFinite(data8))){
if(data8 <= 0 || isNaN(data8)){
const err27 = {instancePath:instancePath+"/toNm",schemaPath:"#/properties/toNm/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema18.properties.toNm,data:data8};
if(vErrors === null){
vErrors = [err27];
}
else {
vErrors.push(err27);
}
errors++;
}
}
else {
const err28 = {instancePath:instancePath+"/toNm",schemaPath:"#/properties/toNm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema18.properties.toNm.type,parentSchema:schema18.properties.toNm,data:data8};
if(vErrors === null){
vErrors = [err28];
}
else {
vErrors.push(err28);
}
errors++;
}
}
}
else {
const err29 = {instancePath,schemaPath:"#/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema18.type,parentSchema:schema18,data};
if(vErrors === null){
vErrors = [err29];
}
else {
vErrors.push(err29);
}
errors++;
}
validate17.errors = vErrors;
return errors === 0;
}


function validate10(data, {instancePath="", parentData, parentDataProperty, rootData=data}={}){
/*# sourceURL="halfmax-session/1" */;
let vErrors = null;
let errors = 0;
if(data && typeof data == "object" && !Array.isArray(data)){
if(data.format === undefined){
const err0 = {instancePath,schemaPath:"#/required",keyword:"required",params:{missingProperty: "format"},message:"must have required property '"+"format"+"'",schema:schema11.required,parentSchema:schema11,data};
if(vErrors === null){
vErrors = [err0];
}
else {
vErrors.push(err0);
}
errors++;
}
if(data.detector === undefined){
const err1 = {instancePath,schemaPath:"#/required",keyword:"required",params:{missingProperty: "detector"},message:"must have required property '"+"detector"+"'",schema:schema11.required,parentSchema:schema11,data};
if(vErrors === null){
vErrors = [err1];
}
else {
vErrors.push(err1);
}
errors++;
}
if(data.frames === undefined){
const err2 = {instancePath,schemaPath:"#/required",keyword:"required",params:{missingProperty: "frames"},message:"must have required property '"+"frames"+"'",schema:schema11.required,parentSchema:schema11,data};
if(vErrors === null){
vErrors = [err2];
}
else {
vErrors.push(err2);
}
errors++;
}
if(data.filters === undefined){
const err3 = {instancePath,schemaPath:"#/required",keyword:"required",params:{missingProperty: "filters"},message:"must have required property '"+"filters"+"'",schema:schema11.required,parentSchema:schema11,data};
if(vErrors === null){
vErrors = [err3];
}
else {
vErrors.push(err3);
}
errors++;
}
if(data.format !== undefined){
let data0 = data.format;
if("halfmax-session/1" !== data0){
const err4 = {instancePath:instancePath+"/format",schemaPath:"#/properties/format/const",keyword:"const",params:{allowedValue: "halfmax-session/1"},message:"must be equal to constant",schema:"halfmax-session/1",parentSchema:schema11.properties.format,data:data0};
if(vErrors === null){
vErrors = [err4];
}
else {
vErrors.push(err4);
}
errors++;
}
}
if(data.title !== undefined){
let data1 = data.title;
if(typeof data1 !== "string"){
const err5 = {instancePath:instancePath+"/title",schemaPath:"#/properties/title/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.title.type,parentSchema:schema11.properties.title,data:data1};
if(vErrors === null){
vErrors = [err5];
}
else {
vErrors.push(err5);
}
errors++;
}
}
if(data.recorded !== undefined){
let data2 = data.recorded;
if(typeof data2 === "string"){
if(!pattern0.test(data2)){
const err6 = {instancePath:instancePath+"/recorded",schemaPath:"#/properties/recorded/pattern",keyword:"pattern",params:{pattern: "^\\d{4}-\\d{2}-\\d{2}(T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?)?$"},message:"must match pattern \""+"^\\d{4}-\\d{2}-\\d{2}(T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?)?$"+"\"",schema:"^\\d{4}-\\d{2}-\\d{2}(T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?)?$",parentSchema:schema11.properties.recorded,data:data2};
if(vErrors === null){
vErrors = [err6];
}
else {
vErrors.push(err6);
}
errors++;
}
}
else {
const err7 = {instancePath:instancePath+"/recorded",schemaPath:"#/properties/recorded/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.recorded.type,parentSchema:schema11.properties.recorded,data:data2};
if(vErrors === null){
vErrors = [err7];
}
else {
vErrors.push(err7);
}
errors++;
}
}
if(data.detector !== undefined){
let data3 = data.detector;
if(data3 && typeof data3 == "object" && !Array.isArray(data3)){
if(data3.pixels === undefined){
const err8 = {instancePath:instancePath+"/detector",schemaPath:"#/properties/detector/required",keyword:"required",params:{missingProperty: "pixels"},message:"must have required property '"+"pixels"+"'",schema:schema11.properties.detector.required,parentSchema:schema11.properties.detector,data:data3};
if(vErrors === null){
vErrors = [err8];
}
else {
vErrors.push(err8);
}
errors++;
}
if(data3.saturationCounts === undefined){
const err9 = {instancePath:instancePath+"/detector",schemaPath:"#/properties/detector/required",keyword:"required",params:{missingProperty: "saturationCounts"},message:"must have required property '"+"saturationCounts"+"'",schema:schema11.properties.detector.required,parentSchema:schema11.properties.detector,data:data3};
if(vErrors === null){
vErrors = [err9];
}
else {
vErrors.push(err9);
}
errors++;
}
if(data3.pixels !== undefined){
let data4 = data3.pixels;
if(!(((typeof data4 == "number") && (!(data4 % 1) && !isNaN(data4))) && (isFinite(data4)))){
const err10 = {instancePath:instancePath+"/detector/pixels",schemaPath:"#/properties/detector/properties/pixels/type",keyword:"type",params:{type: "integer"},message:"must be integer",schema:schema11.properties.detector.properties.pixels.type,parentSchema:schema11.properties.detector.properties.pixels,data:data4};
if(vErrors === null){
vErrors = [err10];
}
else {
vErrors.push(err10);
}
errors++;
}
if((typeof data4 == "number") && (isFinite(data4))){
if(data4 > 100000 || isNaN(data4)){
const err11 = {instancePath:instancePath+"/detector/pixels",schemaPath:"#/properties/detector/properties/pixels/maximum",keyword:"maximum",params:{comparison: "<=", limit: 100000},message:"must be <= 100000",schema:100000,parentSchema:schema11.properties.detector.properties.pixels,data:data4};
if(vErrors === null){
vErrors = [err11];
}
else {
vErrors.push(err11);
}
errors++;
}
if(data4 < 16 || isNaN(data4)){
const err12 = {instancePath:instancePath+"/detector/pixels",schemaPath:"#/properties/detector/properties/pixels/minimum",keyword:"minimum",params:{comparison: ">=", limit: 16},message:"must be >= 16",schema:16,parentSchema:schema11.properties.detector.properties.pixels,data:data4};
if(vErrors === null){
vErrors = [err12];
}
else {
vErrors.push(err12);
}
errors++;
}
}
}
if(data3.saturationCounts !== undefined){
let data5 = data3.saturationCounts;
if((typeof data5 == "number") && (isFinite(data5))){
if(data5 <= 0 || isNaN(data5)){
const err13 = {instancePath:instancePath+"/detector/saturationCounts",schemaPath:"#/properties/detector/properties/saturationCounts/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.detector.properties.saturationCounts,data:data5};
if(vErrors === null){
vErrors = [err13];
}
else {
vErrors.push(err13);
}
errors++;
}
}
else {
const err14 = {instancePath:instancePath+"/detector/saturationCounts",schemaPath:"#/properties/detector/properties/saturationCounts/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.detector.properties.saturationCounts.type,parentSchema:schema11.properties.detector.properties.saturationCounts,data:data5};
if(vErrors === null){
vErrors = [err14];
}
else {
vErrors.push(err14);
}
errors++;
}
}
if(data3.wavelengthStartNm !== undefined){
let data6 = data3.wavelengthStartNm;
if((typeof data6 == "number") && (isFinite(data6))){
if(data6 > 5000 || isNaN(data6)){
const err15 = {instancePath:instancePath+"/detector/wavelengthStartNm",schemaPath:"#/properties/detector/properties/wavelengthStartNm/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5000},message:"must be <= 5000",schema:5000,parentSchema:schema11.properties.detector.properties.wavelengthStartNm,data:data6};
if(vErrors === null){
vErrors = [err15];
}
else {
vErrors.push(err15);
}
errors++;
}
if(data6 < 100 || isNaN(data6)){
const err16 = {instancePath:instancePath+"/detector/wavelengthStartNm",schemaPath:"#/properties/detector/properties/wavelengthStartNm/minimum",keyword:"minimum",params:{comparison: ">=", limit: 100},message:"must be >= 100",schema:100,parentSchema:schema11.properties.detector.properties.wavelengthStartNm,data:data6};
if(vErrors === null){
vErrors = [err16];
}
else {
vErrors.push(err16);
}
errors++;
}
}
else {
const err17 = {instancePath:instancePath+"/detector/wavelengthStartNm",schemaPath:"#/properties/detector/properties/wavelengthStartNm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.detector.properties.wavelengthStartNm.type,parentSchema:schema11.properties.detector.properties.wavelengthStartNm,data:data6};
if(vErrors === null){
vErrors = [err17];
}
else {
vErrors.push(err17);
}
errors++;
}
}
if(data3.wavelengthEndNm !== undefined){
let data7 = data3.wavelengthEndNm;
if((typeof data7 == "number") && (isFinite(data7))){
if(data7 > 5000 || isNaN(data7)){
const err18 = {instancePath:instancePath+"/detector/wavelengthEndNm",schemaPath:"#/properties/detector/properties/wavelengthEndNm/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5000},message:"must be <= 5000",schema:5000,parentSchema:schema11.properties.detector.properties.wavelengthEndNm,data:data7};
if(vErrors === null){
vErrors = [err18];
}
else {
vErrors.push(err18);
}
errors++;
}
if(data7 < 100 || isNaN(data7)){
const err19 = {instancePath:instancePath+"/detector/wavelengthEndNm",schemaPath:"#/properties/detector/properties/wavelengthEndNm/minimum",keyword:"minimum",params:{comparison: ">=", limit: 100},message:"must be >= 100",schema:100,parentSchema:schema11.properties.detector.properties.wavelengthEndNm,data:data7};
if(vErrors === null){
vErrors = [err19];
}
else {
vErrors.push(err19);
}
errors++;
}
}
else {
const err20 = {instancePath:instancePath+"/detector/wavelengthEndNm",schemaPath:"#/properties/detector/properties/wavelengthEndNm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.detector.properties.wavelengthEndNm.type,parentSchema:schema11.properties.detector.properties.wavelengthEndNm,data:data7};
if(vErrors === null){
vErrors = [err20];
}
else {
vErrors.push(err20);
}
errors++;
}
}
if(data3.linearity !== undefined){
let data8 = data3.linearity;
if(Array.isArray(data8)){
if(data8.length > 16){
const err21 = {instancePath:instancePath+"/detector/linearity",schemaPath:"#/properties/detector/properties/linearity/maxItems",keyword:"maxItems",params:{limit: 16},message:"must NOT have more than 16 items",schema:16,parentSchema:schema11.properties.detector.properties.linearity,data:data8};
if(vErrors === null){
vErrors = [err21];
}
else {
vErrors.push(err21);
}
errors++;
}
if(data8.length < 1){
const err22 = {instancePath:instancePath+"/detector/linearity",schemaPath:"#/properties/detector/properties/linearity/minItems",keyword:"minItems",params:{limit: 1},message:"must NOT have fewer than 1 items",schema:1,parentSchema:schema11.properties.detector.properties.linearity,data:data8};
if(vErrors === null){
vErrors = [err22];
}
else {
vErrors.push(err22);
}
errors++;
}
const len0 = data8.length;
for(let i0=0; i0<len0; i0++){
let data9 = data8[i0];
if(!((typeof data9 == "number") && (isFinite(data9)))){
const err23 = {instancePath:instancePath+"/detector/linearity/" + i0,schemaPath:"#/properties/detector/properties/linearity/items/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.detector.properties.linearity.items.type,parentSchema:schema11.properties.detector.properties.linearity.items,data:data9};
if(vErrors === null){
vErrors = [err23];
}
else {
vErrors.push(err23);
}
errors++;
}
}
}
else {
const err24 = {instancePath:instancePath+"/detector/linearity",schemaPath:"#/properties/detector/properties/linearity/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.detector.properties.linearity.type,parentSchema:schema11.properties.detector.properties.linearity,data:data8};
if(vErrors === null){
vErrors = [err24];
}
else {
vErrors.push(err24);
}
errors++;
}
}
}
else {
const err25 = {instancePath:instancePath+"/detector",schemaPath:"#/properties/detector/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.detector.type,parentSchema:schema11.properties.detector,data:data3};
if(vErrors === null){
vErrors = [err25];
}
else {
vErrors.push(err25);
}
errors++;
}
}
if(data.frames !== undefined){
let data10 = data.frames;
if(Array.isArray(data10)){
if(data10.length < 1){
const err26 = {instancePath:instancePath+"/frames",schemaPath:"#/properties/frames/minItems",keyword:"minItems",params:{limit: 1},message:"must NOT have fewer than 1 items",schema:1,parentSchema:schema11.properties.frames,data:data10};
if(vErrors === null){
vErrors = [err26];
}
else {
vErrors.push(err26);
}
errors++;
}
const len1 = data10.length;
for(let i1=0; i1<len1; i1++){
let data11 = data10[i1];
const _errs25 = errors;
let valid7 = true;
const _errs26 = errors;
if(data11 && typeof data11 == "object" && !Array.isArray(data11)){
let missing0;
if((data11.role === undefined) && (missing0 = "role")){
const err27 = {};
if(vErrors === null){
vErrors = [err27];
}
else {
vErrors.push(err27);
}
errors++;
}
else {
if(data11.role !== undefined){
if("lamp" !== data11.role){
const err28 = {};
if(vErrors === null){
vErrors = [err28];
}
else {
vErrors.push(err28);
}
errors++;
}
}
}
}
var _valid0 = _errs26 === errors;
errors = _errs25;
if(vErrors !== null){
if(_errs25){
vErrors.length = _errs25;
}
else {
vErrors = null;
}
}
if(_valid0){
const _errs28 = errors;
if(data11 && typeof data11 == "object" && !Array.isArray(data11)){
if(data11.lamp === undefined){
const err29 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/allOf/0/then/required",keyword:"required",params:{missingProperty: "lamp"},message:"must have required property '"+"lamp"+"'",schema:schema11.properties.frames.items.allOf[0].then.required,parentSchema:schema11.properties.frames.items.allOf[0].then,data:data11};
if(vErrors === null){
vErrors = [err29];
}
else {
vErrors.push(err29);
}
errors++;
}
}
var _valid0 = _errs28 === errors;
valid7 = _valid0;
}
if(!valid7){
const err30 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/allOf/0/if",keyword:"if",params:{failingKeyword: "then"},message:"must match \"then\" schema",schema:schema11.properties.frames.items.allOf[0].if,parentSchema:schema11.properties.frames.items.allOf[0],data:data11};
if(vErrors === null){
vErrors = [err30];
}
else {
vErrors.push(err30);
}
errors++;
}
const _errs30 = errors;
let valid9 = true;
const _errs31 = errors;
if(data11 && typeof data11 == "object" && !Array.isArray(data11)){
let missing1;
if((data11.role === undefined) && (missing1 = "role")){
const err31 = {};
if(vErrors === null){
vErrors = [err31];
}
else {
vErrors.push(err31);
}
errors++;
}
else {
if(data11.role !== undefined){
if("filtered" !== data11.role){
const err32 = {};
if(vErrors === null){
vErrors = [err32];
}
else {
vErrors.push(err32);
}
errors++;
}
}
}
}
var _valid1 = _errs31 === errors;
errors = _errs30;
if(vErrors !== null){
if(_errs30){
vErrors.length = _errs30;
}
else {
vErrors = null;
}
}
if(_valid1){
const _errs33 = errors;
if(data11 && typeof data11 == "object" && !Array.isArray(data11)){
if(data11.filter === undefined){
const err33 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/allOf/1/then/required",keyword:"required",params:{missingProperty: "filter"},message:"must have required property '"+"filter"+"'",schema:schema11.properties.frames.items.allOf[1].then.required,parentSchema:schema11.properties.frames.items.allOf[1].then,data:data11};
if(vErrors === null){
vErrors = [err33];
}
else {
vErrors.push(err33);
}
errors++;
}
}
var _valid1 = _errs33 === errors;
valid9 = _valid1;
}
if(!valid9){
const err34 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/allOf/1/if",keyword:"if",params:{failingKeyword: "then"},message:"must match \"then\" schema",schema:schema11.properties.frames.items.allOf[1].if,parentSchema:schema11.properties.frames.items.allOf[1],data:data11};
if(vErrors === null){
vErrors = [err34];
}
else {
vErrors.push(err34);
}
errors++;
}
if(data11 && typeof data11 == "object" && !Array.isArray(data11)){
if(data11.role === undefined){
const err35 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/required",keyword:"required",params:{missingProperty: "role"},message:"must have required property '"+"role"+"'",schema:schema11.properties.frames.items.required,parentSchema:schema11.properties.frames.items,data:data11};
if(vErrors === null){
vErrors = [err35];
}
else {
vErrors.push(err35);
}
errors++;
}
if(data11.exposureMs === undefined){
const err36 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/required",keyword:"required",params:{missingProperty: "exposureMs"},message:"must have required property '"+"exposureMs"+"'",schema:schema11.properties.frames.items.required,parentSchema:schema11.properties.frames.items,data:data11};
if(vErrors === null){
vErrors = [err36];
}
else {
vErrors.push(err36);
}
errors++;
}
if(data11.files === undefined){
const err37 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/required",keyword:"required",params:{missingProperty: "files"},message:"must have required property '"+"files"+"'",schema:schema11.properties.frames.items.required,parentSchema:schema11.properties.frames.items,data:data11};
if(vErrors === null){
vErrors = [err37];
}
else {
vErrors.push(err37);
}
errors++;
}
if(data11.role !== undefined){
let data14 = data11.role;
if(!((((data14 === "dark") || (data14 === "lamp")) || (data14 === "open")) || (data14 === "filtered"))){
const err38 = {instancePath:instancePath+"/frames/" + i1+"/role",schemaPath:"#/properties/frames/items/properties/role/enum",keyword:"enum",params:{allowedValues: schema11.properties.frames.items.properties.role.enum},message:"must be equal to one of the allowed values",schema:schema11.properties.frames.items.properties.role.enum,parentSchema:schema11.properties.frames.items.properties.role,data:data14};
if(vErrors === null){
vErrors = [err38];
}
else {
vErrors.push(err38);
}
errors++;
}
}
if(data11.exposureMs !== undefined){
let data15 = data11.exposureMs;
if((typeof data15 == "number") && (isFinite(data15))){
if(data15 <= 0 || isNaN(data15)){
const err39 = {instancePath:instancePath+"/frames/" + i1+"/exposureMs",schemaPath:"#/properties/frames/items/properties/exposureMs/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.frames.items.properties.exposureMs,data:data15};
if(vErrors === null){
vErrors = [err39];
}
else {
vErrors.push(err39);
}
errors++;
}
}
else {
const err40 = {instancePath:instancePath+"/frames/" + i1+"/exposureMs",schemaPath:"#/properties/frames/items/properties/exposureMs/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.frames.items.properties.exposureMs.type,parentSchema:schema11.properties.frames.items.properties.exposureMs,data:data15};
if(vErrors === null){
vErrors = [err40];
}
else {
vErrors.push(err40);
}
errors++;
}
}
if(data11.files !== undefined){
let data16 = data11.files;
if(Array.isArray(data16)){
if(data16.length < 1){
const err41 = {instancePath:instancePath+"/frames/" + i1+"/files",schemaPath:"#/properties/frames/items/properties/files/minItems",keyword:"minItems",params:{limit: 1},message:"must NOT have fewer than 1 items",schema:1,parentSchema:schema11.properties.frames.items.properties.files,data:data16};
if(vErrors === null){
vErrors = [err41];
}
else {
vErrors.push(err41);
}
errors++;
}
const len2 = data16.length;
for(let i2=0; i2<len2; i2++){
let data17 = data16[i2];
if(typeof data17 === "string"){
if(func2(data17) < 1){
const err42 = {instancePath:instancePath+"/frames/" + i1+"/files/" + i2,schemaPath:"#/properties/frames/items/properties/files/items/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.frames.items.properties.files.items,data:data17};
if(vErrors === null){
vErrors = [err42];
}
else {
vErrors.push(err42);
}
errors++;
}
}
else {
const err43 = {instancePath:instancePath+"/frames/" + i1+"/files/" + i2,schemaPath:"#/properties/frames/items/properties/files/items/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.frames.items.properties.files.items.type,parentSchema:schema11.properties.frames.items.properties.files.items,data:data17};
if(vErrors === null){
vErrors = [err43];
}
else {
vErrors.push(err43);
}
errors++;
}
}
}
else {
const err44 = {instancePath:instancePath+"/frames/" + i1+"/files",schemaPath:"#/properties/frames/items/properties/files/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.frames.items.properties.files.type,parentSchema:schema11.properties.frames.items.properties.files,data:data16};
if(vErrors === null){
vErrors = [err44];
}
else {
vErrors.push(err44);
}
errors++;
}
}
if(data11.lamp !== undefined){
let data18 = data11.lamp;
if(typeof data18 === "string"){
if(func2(data18) < 1){
const err45 = {instancePath:instancePath+"/frames/" + i1+"/lamp",schemaPath:"#/properties/frames/items/properties/lamp/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.frames.items.properties.lamp,data:data18};
if(vErrors === null){
vErrors = [err45];
}
else {
vErrors.push(err45);
}
errors++;
}
}
else {
const err46 = {instancePath:instancePath+"/frames/" + i1+"/lamp",schemaPath:"#/properties/frames/items/properties/lamp/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.frames.items.properties.lamp.type,parentSchema:schema11.properties.frames.items.properties.lamp,data:data18};
if(vErrors === null){
vErrors = [err46];
}
else {
vErrors.push(err46);
}
errors++;
}
}
if(data11.filter !== undefined){
let data19 = data11.filter;
if(typeof data19 === "string"){
if(func2(data19) < 1){
const err47 = {instancePath:instancePath+"/frames/" + i1+"/filter",schemaPath:"#/properties/frames/items/properties/filter/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.frames.items.properties.filter,data:data19};
if(vErrors === null){
vErrors = [err47];
}
else {
vErrors.push(err47);
}
errors++;
}
}
else {
const err48 = {instancePath:instancePath+"/frames/" + i1+"/filter",schemaPath:"#/properties/frames/items/properties/filter/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.frames.items.properties.filter.type,parentSchema:schema11.properties.frames.items.properties.filter,data:data19};
if(vErrors === null){
vErrors = [err48];
}
else {
vErrors.push(err48);
}
errors++;
}
}
if(data11.takenAt !== undefined){
let data20 = data11.takenAt;
if(typeof data20 === "string"){
if(!pattern1.test(data20)){
const err49 = {instancePath:instancePath+"/frames/" + i1+"/takenAt",schemaPath:"#/properties/frames/items/properties/takenAt/pattern",keyword:"pattern",params:{pattern: "^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?$"},message:"must match pattern \""+"^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?$"+"\"",schema:"^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?$",parentSchema:schema11.properties.frames.items.properties.takenAt,data:data20};
if(vErrors === null){
vErrors = [err49];
}
else {
vErrors.push(err49);
}
errors++;
}
}
else {
const err50 = {instancePath:instancePath+"/frames/" + i1+"/takenAt",schemaPath:"#/properties/frames/items/properties/takenAt/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.frames.items.properties.takenAt.type,parentSchema:schema11.properties.frames.items.properties.takenAt,data:data20};
if(vErrors === null){
vErrors = [err50];
}
else {
vErrors.push(err50);
}
errors++;
}
}
}
else {
const err51 = {instancePath:instancePath+"/frames/" + i1,schemaPath:"#/properties/frames/items/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.frames.items.type,parentSchema:schema11.properties.frames.items,data:data11};
if(vErrors === null){
vErrors = [err51];
}
else {
vErrors.push(err51);
}
errors++;
}
}
}
else {
const err52 = {instancePath:instancePath+"/frames",schemaPath:"#/properties/frames/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.frames.type,parentSchema:schema11.properties.frames,data:data10};
if(vErrors === null){
vErrors = [err52];
}
else {
vErrors.push(err52);
}
errors++;
}
}
if(data.filters !== undefined){
let data21 = data.filters;
if(Array.isArray(data21)){
const len3 = data21.length;
for(let i3=0; i3<len3; i3++){
let data22 = data21[i3];
if(data22 && typeof data22 == "object" && !Array.isArray(data22)){
if(data22.id === undefined){
const err53 = {instancePath:instancePath+"/filters/" + i3,schemaPath:"#/properties/filters/items/required",keyword:"required",params:{missingProperty: "id"},message:"must have required property '"+"id"+"'",schema:schema11.properties.filters.items.required,parentSchema:schema11.properties.filters.items,data:data22};
if(vErrors === null){
vErrors = [err53];
}
else {
vErrors.push(err53);
}
errors++;
}
if(data22.lines === undefined){
const err54 = {instancePath:instancePath+"/filters/" + i3,schemaPath:"#/properties/filters/items/required",keyword:"required",params:{missingProperty: "lines"},message:"must have required property '"+"lines"+"'",schema:schema11.properties.filters.items.required,parentSchema:schema11.properties.filters.items,data:data22};
if(vErrors === null){
vErrors = [err54];
}
else {
vErrors.push(err54);
}
errors++;
}
if(data22.id !== undefined){
let data23 = data22.id;
if(typeof data23 === "string"){
if(!pattern2.test(data23)){
const err55 = {instancePath:instancePath+"/filters/" + i3+"/id",schemaPath:"#/properties/filters/items/properties/id/pattern",keyword:"pattern",params:{pattern: "^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$"},message:"must match pattern \""+"^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$"+"\"",schema:"^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$",parentSchema:schema11.properties.filters.items.properties.id,data:data23};
if(vErrors === null){
vErrors = [err55];
}
else {
vErrors.push(err55);
}
errors++;
}
}
else {
const err56 = {instancePath:instancePath+"/filters/" + i3+"/id",schemaPath:"#/properties/filters/items/properties/id/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.filters.items.properties.id.type,parentSchema:schema11.properties.filters.items.properties.id,data:data23};
if(vErrors === null){
vErrors = [err56];
}
else {
vErrors.push(err56);
}
errors++;
}
}
if(data22.label !== undefined){
let data24 = data22.label;
if(typeof data24 !== "string"){
const err57 = {instancePath:instancePath+"/filters/" + i3+"/label",schemaPath:"#/properties/filters/items/properties/label/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.filters.items.properties.label.type,parentSchema:schema11.properties.filters.items.properties.label,data:data24};
if(vErrors === null){
vErrors = [err57];
}
else {
vErrors.push(err57);
}
errors++;
}
}
if(data22.lines !== undefined){
let data25 = data22.lines;
if(Array.isArray(data25)){
const len4 = data25.length;
for(let i4=0; i4<len4; i4++){
let data26 = data25[i4];
if(typeof data26 === "string"){
if(func2(data26) < 1){
const err58 = {instancePath:instancePath+"/filters/" + i3+"/lines/" + i4,schemaPath:"#/properties/filters/items/properties/lines/items/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.filters.items.properties.lines.items,data:data26};
if(vErrors === null){
vErrors = [err58];
}
else {
vErrors.push(err58);
}
errors++;
}
}
else {
const err59 = {instancePath:instancePath+"/filters/" + i3+"/lines/" + i4,schemaPath:"#/properties/filters/items/properties/lines/items/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.filters.items.properties.lines.items.type,parentSchema:schema11.properties.filters.items.properties.lines.items,data:data26};
if(vErrors === null){
vErrors = [err59];
}
else {
vErrors.push(err59);
}
errors++;
}
}
}
else {
const err60 = {instancePath:instancePath+"/filters/" + i3+"/lines",schemaPath:"#/properties/filters/items/properties/lines/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.filters.items.properties.lines.type,parentSchema:schema11.properties.filters.items.properties.lines,data:data25};
if(vErrors === null){
vErrors = [err60];
}
else {
vErrors.push(err60);
}
errors++;
}
}
if(data22.claims !== undefined){
let data27 = data22.claims;
if(data27 && typeof data27 == "object" && !Array.isArray(data27)){
if(data27.fwhmNm !== undefined){
if(!(validate11(data27.fwhmNm, {instancePath:instancePath+"/filters/" + i3+"/claims/fwhmNm",parentData:data27,parentDataProperty:"fwhmNm",rootData}))){
vErrors = vErrors === null ? validate11.errors : vErrors.concat(validate11.errors);
errors = vErrors.length;
}
}
if(data27.centreNm !== undefined){
if(!(validate11(data27.centreNm, {instancePath:instancePath+"/filters/" + i3+"/claims/centreNm",parentData:data27,parentDataProperty:"centreNm",rootData}))){
vErrors = vErrors === null ? validate11.errors : vErrors.concat(validate11.errors);
errors = vErrors.length;
}
}
if(data27.peakTransmittance !== undefined){
if(!(validate14(data27.peakTransmittance, {instancePath:instancePath+"/filters/" + i3+"/claims/peakTransmittance",parentData:data27,parentDataProperty:"peakTransmittance",rootData}))){
vErrors = vErrors === null ? validate14.errors : vErrors.concat(validate14.errors);
errors = vErrors.length;
}
}
if(data27.transmittanceAtLine !== undefined){
if(!(validate14(data27.transmittanceAtLine, {instancePath:instancePath+"/filters/" + i3+"/claims/transmittanceAtLine",parentData:data27,parentDataProperty:"transmittanceAtLine",rootData}))){
vErrors = vErrors === null ? validate14.errors : vErrors.concat(validate14.errors);
errors = vErrors.length;
}
}
if(data27.opticalDensity !== undefined){
if(!(validate17(data27.opticalDensity, {instancePath:instancePath+"/filters/" + i3+"/claims/opticalDensity",parentData:data27,parentDataProperty:"opticalDensity",rootData}))){
vErrors = vErrors === null ? validate17.errors : vErrors.concat(validate17.errors);
errors = vErrors.length;
}
}
}
else {
const err61 = {instancePath:instancePath+"/filters/" + i3+"/claims",schemaPath:"#/properties/filters/items/properties/claims/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.filters.items.properties.claims.type,parentSchema:schema11.properties.filters.items.properties.claims,data:data27};
if(vErrors === null){
vErrors = [err61];
}
else {
vErrors.push(err61);
}
errors++;
}
}
if(data22.price !== undefined){
let data33 = data22.price;
if(data33 && typeof data33 == "object" && !Array.isArray(data33)){
if(data33.amount === undefined){
const err62 = {instancePath:instancePath+"/filters/" + i3+"/price",schemaPath:"#/properties/filters/items/properties/price/required",keyword:"required",params:{missingProperty: "amount"},message:"must have required property '"+"amount"+"'",schema:schema11.properties.filters.items.properties.price.required,parentSchema:schema11.properties.filters.items.properties.price,data:data33};
if(vErrors === null){
vErrors = [err62];
}
else {
vErrors.push(err62);
}
errors++;
}
if(data33.currency === undefined){
const err63 = {instancePath:instancePath+"/filters/" + i3+"/price",schemaPath:"#/properties/filters/items/properties/price/required",keyword:"required",params:{missingProperty: "currency"},message:"must have required property '"+"currency"+"'",schema:schema11.properties.filters.items.properties.price.required,parentSchema:schema11.properties.filters.items.properties.price,data:data33};
if(vErrors === null){
vErrors = [err63];
}
else {
vErrors.push(err63);
}
errors++;
}
if(data33.amount !== undefined){
let data34 = data33.amount;
if((typeof data34 == "number") && (isFinite(data34))){
if(data34 < 0 || isNaN(data34)){
const err64 = {instancePath:instancePath+"/filters/" + i3+"/price/amount",schemaPath:"#/properties/filters/items/properties/price/properties/amount/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.filters.items.properties.price.properties.amount,data:data34};
if(vErrors === null){
vErrors = [err64];
}
else {
vErrors.push(err64);
}
errors++;
}
}
else {
const err65 = {instancePath:instancePath+"/filters/" + i3+"/price/amount",schemaPath:"#/properties/filters/items/properties/price/properties/amount/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.filters.items.properties.price.properties.amount.type,parentSchema:schema11.properties.filters.items.properties.price.properties.amount,data:data34};
if(vErrors === null){
vErrors = [err65];
}
else {
vErrors.push(err65);
}
errors++;
}
}
if(data33.currency !== undefined){
let data35 = data33.currency;
if(typeof data35 === "string"){
if(func2(data35) < 1){
const err66 = {instancePath:instancePath+"/filters/" + i3+"/price/currency",schemaPath:"#/properties/filters/items/properties/price/properties/currency/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.filters.items.properties.price.properties.currency,data:data35};
if(vErrors === null){
vErrors = [err66];
}
else {
vErrors.push(err66);
}
errors++;
}
}
else {
const err67 = {instancePath:instancePath+"/filters/" + i3+"/price/currency",schemaPath:"#/properties/filters/items/properties/price/properties/currency/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.filters.items.properties.price.properties.currency.type,parentSchema:schema11.properties.filters.items.properties.price.properties.currency,data:data35};
if(vErrors === null){
vErrors = [err67];
}
else {
vErrors.push(err67);
}
errors++;
}
}
}
else {
const err68 = {instancePath:instancePath+"/filters/" + i3+"/price",schemaPath:"#/properties/filters/items/properties/price/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.filters.items.properties.price.type,parentSchema:schema11.properties.filters.items.properties.price,data:data33};
if(vErrors === null){
vErrors = [err68];
}
else {
vErrors.push(err68);
}
errors++;
}
}
}
else {
const err69 = {instancePath:instancePath+"/filters/" + i3,schemaPath:"#/properties/filters/items/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.filters.items.type,parentSchema:schema11.properties.filters.items,data:data22};
if(vErrors === null){
vErrors = [err69];
}
else {
vErrors.push(err69);
}
errors++;
}
}
}
else {
const err70 = {instancePath:instancePath+"/filters",schemaPath:"#/properties/filters/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.filters.type,parentSchema:schema11.properties.filters,data:data21};
if(vErrors === null){
vErrors = [err70];
}
else {
vErrors.push(err70);
}
errors++;
}
}
if(data.site !== undefined){
let data36 = data.site;
if(data36 && typeof data36 == "object" && !Array.isArray(data36)){
if(data36.skyBrightness !== undefined){
let data37 = data36.skyBrightness;
if((typeof data37 == "number") && (isFinite(data37))){
if(data37 > 30 || isNaN(data37)){
const err71 = {instancePath:instancePath+"/site/skyBrightness",schemaPath:"#/properties/site/properties/skyBrightness/maximum",keyword:"maximum",params:{comparison: "<=", limit: 30},message:"must be <= 30",schema:30,parentSchema:schema11.properties.site.properties.skyBrightness,data:data37};
if(vErrors === null){
vErrors = [err71];
}
else {
vErrors.push(err71);
}
errors++;
}
if(data37 < 0 || isNaN(data37)){
const err72 = {instancePath:instancePath+"/site/skyBrightness",schemaPath:"#/properties/site/properties/skyBrightness/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.skyBrightness,data:data37};
if(vErrors === null){
vErrors = [err72];
}
else {
vErrors.push(err72);
}
errors++;
}
}
else {
const err73 = {instancePath:instancePath+"/site/skyBrightness",schemaPath:"#/properties/site/properties/skyBrightness/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.skyBrightness.type,parentSchema:schema11.properties.site.properties.skyBrightness,data:data37};
if(vErrors === null){
vErrors = [err73];
}
else {
vErrors.push(err73);
}
errors++;
}
}
if(data36.skyBrightnessUncertainty !== undefined){
let data38 = data36.skyBrightnessUncertainty;
if((typeof data38 == "number") && (isFinite(data38))){
if(data38 > 5 || isNaN(data38)){
const err74 = {instancePath:instancePath+"/site/skyBrightnessUncertainty",schemaPath:"#/properties/site/properties/skyBrightnessUncertainty/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5},message:"must be <= 5",schema:5,parentSchema:schema11.properties.site.properties.skyBrightnessUncertainty,data:data38};
if(vErrors === null){
vErrors = [err74];
}
else {
vErrors.push(err74);
}
errors++;
}
if(data38 < 0 || isNaN(data38)){
const err75 = {instancePath:instancePath+"/site/skyBrightnessUncertainty",schemaPath:"#/properties/site/properties/skyBrightnessUncertainty/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.skyBrightnessUncertainty,data:data38};
if(vErrors === null){
vErrors = [err75];
}
else {
vErrors.push(err75);
}
errors++;
}
}
else {
const err76 = {instancePath:instancePath+"/site/skyBrightnessUncertainty",schemaPath:"#/properties/site/properties/skyBrightnessUncertainty/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.skyBrightnessUncertainty.type,parentSchema:schema11.properties.site.properties.skyBrightnessUncertainty,data:data38};
if(vErrors === null){
vErrors = [err76];
}
else {
vErrors.push(err76);
}
errors++;
}
}
if(data36.airglowRelativeUncertainty !== undefined){
let data39 = data36.airglowRelativeUncertainty;
if((typeof data39 == "number") && (isFinite(data39))){
if(data39 > 5 || isNaN(data39)){
const err77 = {instancePath:instancePath+"/site/airglowRelativeUncertainty",schemaPath:"#/properties/site/properties/airglowRelativeUncertainty/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5},message:"must be <= 5",schema:5,parentSchema:schema11.properties.site.properties.airglowRelativeUncertainty,data:data39};
if(vErrors === null){
vErrors = [err77];
}
else {
vErrors.push(err77);
}
errors++;
}
if(data39 < 0 || isNaN(data39)){
const err78 = {instancePath:instancePath+"/site/airglowRelativeUncertainty",schemaPath:"#/properties/site/properties/airglowRelativeUncertainty/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.airglowRelativeUncertainty,data:data39};
if(vErrors === null){
vErrors = [err78];
}
else {
vErrors.push(err78);
}
errors++;
}
}
else {
const err79 = {instancePath:instancePath+"/site/airglowRelativeUncertainty",schemaPath:"#/properties/site/properties/airglowRelativeUncertainty/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.airglowRelativeUncertainty.type,parentSchema:schema11.properties.site.properties.airglowRelativeUncertainty,data:data39};
if(vErrors === null){
vErrors = [err79];
}
else {
vErrors.push(err79);
}
errors++;
}
}
if(data36.lightSources !== undefined){
let data40 = data36.lightSources;
if(Array.isArray(data40)){
const len5 = data40.length;
for(let i5=0; i5<len5; i5++){
let data41 = data40[i5];
if(data41 && typeof data41 == "object" && !Array.isArray(data41)){
if(data41.source === undefined){
const err80 = {instancePath:instancePath+"/site/lightSources/" + i5,schemaPath:"#/properties/site/properties/lightSources/items/required",keyword:"required",params:{missingProperty: "source"},message:"must have required property '"+"source"+"'",schema:schema11.properties.site.properties.lightSources.items.required,parentSchema:schema11.properties.site.properties.lightSources.items,data:data41};
if(vErrors === null){
vErrors = [err80];
}
else {
vErrors.push(err80);
}
errors++;
}
if(data41.share === undefined){
const err81 = {instancePath:instancePath+"/site/lightSources/" + i5,schemaPath:"#/properties/site/properties/lightSources/items/required",keyword:"required",params:{missingProperty: "share"},message:"must have required property '"+"share"+"'",schema:schema11.properties.site.properties.lightSources.items.required,parentSchema:schema11.properties.site.properties.lightSources.items,data:data41};
if(vErrors === null){
vErrors = [err81];
}
else {
vErrors.push(err81);
}
errors++;
}
if(data41.source !== undefined){
let data42 = data41.source;
if(typeof data42 === "string"){
if(func2(data42) < 1){
const err82 = {instancePath:instancePath+"/site/lightSources/" + i5+"/source",schemaPath:"#/properties/site/properties/lightSources/items/properties/source/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.site.properties.lightSources.items.properties.source,data:data42};
if(vErrors === null){
vErrors = [err82];
}
else {
vErrors.push(err82);
}
errors++;
}
}
else {
const err83 = {instancePath:instancePath+"/site/lightSources/" + i5+"/source",schemaPath:"#/properties/site/properties/lightSources/items/properties/source/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.site.properties.lightSources.items.properties.source.type,parentSchema:schema11.properties.site.properties.lightSources.items.properties.source,data:data42};
if(vErrors === null){
vErrors = [err83];
}
else {
vErrors.push(err83);
}
errors++;
}
}
if(data41.share !== undefined){
let data43 = data41.share;
if((typeof data43 == "number") && (isFinite(data43))){
if(data43 < 0 || isNaN(data43)){
const err84 = {instancePath:instancePath+"/site/lightSources/" + i5+"/share",schemaPath:"#/properties/site/properties/lightSources/items/properties/share/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.lightSources.items.properties.share,data:data43};
if(vErrors === null){
vErrors = [err84];
}
else {
vErrors.push(err84);
}
errors++;
}
}
else {
const err85 = {instancePath:instancePath+"/site/lightSources/" + i5+"/share",schemaPath:"#/properties/site/properties/lightSources/items/properties/share/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.lightSources.items.properties.share.type,parentSchema:schema11.properties.site.properties.lightSources.items.properties.share,data:data43};
if(vErrors === null){
vErrors = [err85];
}
else {
vErrors.push(err85);
}
errors++;
}
}
if(data41.uncertainty !== undefined){
let data44 = data41.uncertainty;
if((typeof data44 == "number") && (isFinite(data44))){
if(data44 < 0 || isNaN(data44)){
const err86 = {instancePath:instancePath+"/site/lightSources/" + i5+"/uncertainty",schemaPath:"#/properties/site/properties/lightSources/items/properties/uncertainty/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.lightSources.items.properties.uncertainty,data:data44};
if(vErrors === null){
vErrors = [err86];
}
else {
vErrors.push(err86);
}
errors++;
}
}
else {
const err87 = {instancePath:instancePath+"/site/lightSources/" + i5+"/uncertainty",schemaPath:"#/properties/site/properties/lightSources/items/properties/uncertainty/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.lightSources.items.properties.uncertainty.type,parentSchema:schema11.properties.site.properties.lightSources.items.properties.uncertainty,data:data44};
if(vErrors === null){
vErrors = [err87];
}
else {
vErrors.push(err87);
}
errors++;
}
}
}
else {
const err88 = {instancePath:instancePath+"/site/lightSources/" + i5,schemaPath:"#/properties/site/properties/lightSources/items/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.site.properties.lightSources.items.type,parentSchema:schema11.properties.site.properties.lightSources.items,data:data41};
if(vErrors === null){
vErrors = [err88];
}
else {
vErrors.push(err88);
}
errors++;
}
}
}
else {
const err89 = {instancePath:instancePath+"/site/lightSources",schemaPath:"#/properties/site/properties/lightSources/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.site.properties.lightSources.type,parentSchema:schema11.properties.site.properties.lightSources,data:data40};
if(vErrors === null){
vErrors = [err89];
}
else {
vErrors.push(err89);
}
errors++;
}
}
if(data36.moon !== undefined){
let data45 = data36.moon;
if(data45 && typeof data45 == "object" && !Array.isArray(data45)){
if(data45.illuminatedFraction !== undefined){
let data46 = data45.illuminatedFraction;
if((typeof data46 == "number") && (isFinite(data46))){
if(data46 > 1 || isNaN(data46)){
const err90 = {instancePath:instancePath+"/site/moon/illuminatedFraction",schemaPath:"#/properties/site/properties/moon/properties/illuminatedFraction/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema11.properties.site.properties.moon.properties.illuminatedFraction,data:data46};
if(vErrors === null){
vErrors = [err90];
}
else {
vErrors.push(err90);
}
errors++;
}
if(data46 < 0 || isNaN(data46)){
const err91 = {instancePath:instancePath+"/site/moon/illuminatedFraction",schemaPath:"#/properties/site/properties/moon/properties/illuminatedFraction/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.moon.properties.illuminatedFraction,data:data46};
if(vErrors === null){
vErrors = [err91];
}
else {
vErrors.push(err91);
}
errors++;
}
}
else {
const err92 = {instancePath:instancePath+"/site/moon/illuminatedFraction",schemaPath:"#/properties/site/properties/moon/properties/illuminatedFraction/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.moon.properties.illuminatedFraction.type,parentSchema:schema11.properties.site.properties.moon.properties.illuminatedFraction,data:data46};
if(vErrors === null){
vErrors = [err92];
}
else {
vErrors.push(err92);
}
errors++;
}
}
if(data45.altitudeDeg !== undefined){
let data47 = data45.altitudeDeg;
if((typeof data47 == "number") && (isFinite(data47))){
if(data47 > 90 || isNaN(data47)){
const err93 = {instancePath:instancePath+"/site/moon/altitudeDeg",schemaPath:"#/properties/site/properties/moon/properties/altitudeDeg/maximum",keyword:"maximum",params:{comparison: "<=", limit: 90},message:"must be <= 90",schema:90,parentSchema:schema11.properties.site.properties.moon.properties.altitudeDeg,data:data47};
if(vErrors === null){
vErrors = [err93];
}
else {
vErrors.push(err93);
}
errors++;
}
if(data47 < -90 || isNaN(data47)){
const err94 = {instancePath:instancePath+"/site/moon/altitudeDeg",schemaPath:"#/properties/site/properties/moon/properties/altitudeDeg/minimum",keyword:"minimum",params:{comparison: ">=", limit: -90},message:"must be >= -90",schema:-90,parentSchema:schema11.properties.site.properties.moon.properties.altitudeDeg,data:data47};
if(vErrors === null){
vErrors = [err94];
}
else {
vErrors.push(err94);
}
errors++;
}
}
else {
const err95 = {instancePath:instancePath+"/site/moon/altitudeDeg",schemaPath:"#/properties/site/properties/moon/properties/altitudeDeg/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.moon.properties.altitudeDeg.type,parentSchema:schema11.properties.site.properties.moon.properties.altitudeDeg,data:data47};
if(vErrors === null){
vErrors = [err95];
}
else {
vErrors.push(err95);
}
errors++;
}
}
if(data45.separationDeg !== undefined){
let data48 = data45.separationDeg;
if((typeof data48 == "number") && (isFinite(data48))){
if(data48 > 180 || isNaN(data48)){
const err96 = {instancePath:instancePath+"/site/moon/separationDeg",schemaPath:"#/properties/site/properties/moon/properties/separationDeg/maximum",keyword:"maximum",params:{comparison: "<=", limit: 180},message:"must be <= 180",schema:180,parentSchema:schema11.properties.site.properties.moon.properties.separationDeg,data:data48};
if(vErrors === null){
vErrors = [err96];
}
else {
vErrors.push(err96);
}
errors++;
}
if(data48 < 0 || isNaN(data48)){
const err97 = {instancePath:instancePath+"/site/moon/separationDeg",schemaPath:"#/properties/site/properties/moon/properties/separationDeg/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.moon.properties.separationDeg,data:data48};
if(vErrors === null){
vErrors = [err97];
}
else {
vErrors.push(err97);
}
errors++;
}
}
else {
const err98 = {instancePath:instancePath+"/site/moon/separationDeg",schemaPath:"#/properties/site/properties/moon/properties/separationDeg/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.moon.properties.separationDeg.type,parentSchema:schema11.properties.site.properties.moon.properties.separationDeg,data:data48};
if(vErrors === null){
vErrors = [err98];
}
else {
vErrors.push(err98);
}
errors++;
}
}
if(data45.relativeUncertainty !== undefined){
let data49 = data45.relativeUncertainty;
if((typeof data49 == "number") && (isFinite(data49))){
if(data49 > 5 || isNaN(data49)){
const err99 = {instancePath:instancePath+"/site/moon/relativeUncertainty",schemaPath:"#/properties/site/properties/moon/properties/relativeUncertainty/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5},message:"must be <= 5",schema:5,parentSchema:schema11.properties.site.properties.moon.properties.relativeUncertainty,data:data49};
if(vErrors === null){
vErrors = [err99];
}
else {
vErrors.push(err99);
}
errors++;
}
if(data49 < 0 || isNaN(data49)){
const err100 = {instancePath:instancePath+"/site/moon/relativeUncertainty",schemaPath:"#/properties/site/properties/moon/properties/relativeUncertainty/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.moon.properties.relativeUncertainty,data:data49};
if(vErrors === null){
vErrors = [err100];
}
else {
vErrors.push(err100);
}
errors++;
}
}
else {
const err101 = {instancePath:instancePath+"/site/moon/relativeUncertainty",schemaPath:"#/properties/site/properties/moon/properties/relativeUncertainty/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.moon.properties.relativeUncertainty.type,parentSchema:schema11.properties.site.properties.moon.properties.relativeUncertainty,data:data49};
if(vErrors === null){
vErrors = [err101];
}
else {
vErrors.push(err101);
}
errors++;
}
}
}
else {
const err102 = {instancePath:instancePath+"/site/moon",schemaPath:"#/properties/site/properties/moon/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.site.properties.moon.type,parentSchema:schema11.properties.site.properties.moon,data:data45};
if(vErrors === null){
vErrors = [err102];
}
else {
vErrors.push(err102);
}
errors++;
}
}
if(data36.airmass !== undefined){
let data50 = data36.airmass;
if((typeof data50 == "number") && (isFinite(data50))){
if(data50 > 40 || isNaN(data50)){
const err103 = {instancePath:instancePath+"/site/airmass",schemaPath:"#/properties/site/properties/airmass/maximum",keyword:"maximum",params:{comparison: "<=", limit: 40},message:"must be <= 40",schema:40,parentSchema:schema11.properties.site.properties.airmass,data:data50};
if(vErrors === null){
vErrors = [err103];
}
else {
vErrors.push(err103);
}
errors++;
}
if(data50 < 1 || isNaN(data50)){
const err104 = {instancePath:instancePath+"/site/airmass",schemaPath:"#/properties/site/properties/airmass/minimum",keyword:"minimum",params:{comparison: ">=", limit: 1},message:"must be >= 1",schema:1,parentSchema:schema11.properties.site.properties.airmass,data:data50};
if(vErrors === null){
vErrors = [err104];
}
else {
vErrors.push(err104);
}
errors++;
}
}
else {
const err105 = {instancePath:instancePath+"/site/airmass",schemaPath:"#/properties/site/properties/airmass/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.airmass.type,parentSchema:schema11.properties.site.properties.airmass,data:data50};
if(vErrors === null){
vErrors = [err105];
}
else {
vErrors.push(err105);
}
errors++;
}
}
if(data36.quantumEfficiency !== undefined){
let data51 = data36.quantumEfficiency;
const _errs103 = errors;
let valid26 = false;
const _errs104 = errors;
if((typeof data51 == "number") && (isFinite(data51))){
if(data51 > 1 || isNaN(data51)){
const err106 = {instancePath:instancePath+"/site/quantumEfficiency",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/0/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[0],data:data51};
if(vErrors === null){
vErrors = [err106];
}
else {
vErrors.push(err106);
}
errors++;
}
if(data51 <= 0 || isNaN(data51)){
const err107 = {instancePath:instancePath+"/site/quantumEfficiency",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[0],data:data51};
if(vErrors === null){
vErrors = [err107];
}
else {
vErrors.push(err107);
}
errors++;
}
}
else {
const err108 = {instancePath:instancePath+"/site/quantumEfficiency",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.quantumEfficiency.anyOf[0].type,parentSchema:schema11.properties.site.properties.quantumEfficiency.anyOf[0],data:data51};
if(vErrors === null){
vErrors = [err108];
}
else {
vErrors.push(err108);
}
errors++;
}
var _valid2 = _errs104 === errors;
valid26 = valid26 || _valid2;
if(!valid26){
const _errs106 = errors;
if(Array.isArray(data51)){
if(data51.length < 2){
const err109 = {instancePath:instancePath+"/site/quantumEfficiency",schemaPath:"#/definitions/responseTable/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema21,data:data51};
if(vErrors === null){
vErrors = [err109];
}
else {
vErrors.push(err109);
}
errors++;
}
const len6 = data51.length;
for(let i6=0; i6<len6; i6++){
let data52 = data51[i6];
if(Array.isArray(data52)){
if(data52.length > 2){
const err110 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6,schemaPath:"#/definitions/responseTable/items/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema21.items,data:data52};
if(vErrors === null){
vErrors = [err110];
}
else {
vErrors.push(err110);
}
errors++;
}
if(data52.length < 2){
const err111 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6,schemaPath:"#/definitions/responseTable/items/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema21.items,data:data52};
if(vErrors === null){
vErrors = [err111];
}
else {
vErrors.push(err111);
}
errors++;
}
const len7 = data52.length;
if(len7 > 0){
let data53 = data52[0];
if((typeof data53 == "number") && (isFinite(data53))){
if(data53 <= 0 || isNaN(data53)){
const err112 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6+"/0",schemaPath:"#/definitions/responseTable/items/items/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema21.items.items[0],data:data53};
if(vErrors === null){
vErrors = [err112];
}
else {
vErrors.push(err112);
}
errors++;
}
}
else {
const err113 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6+"/0",schemaPath:"#/definitions/responseTable/items/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema21.items.items[0].type,parentSchema:schema21.items.items[0],data:data53};
if(vErrors === null){
vErrors = [err113];
}
else {
vErrors.push(err113);
}
errors++;
}
}
if(len7 > 1){
let data54 = data52[1];
if((typeof data54 == "number") && (isFinite(data54))){
if(data54 > 1 || isNaN(data54)){
const err114 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6+"/1",schemaPath:"#/definitions/responseTable/items/items/1/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema21.items.items[1],data:data54};
if(vErrors === null){
vErrors = [err114];
}
else {
vErrors.push(err114);
}
errors++;
}
if(data54 < 0 || isNaN(data54)){
const err115 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6+"/1",schemaPath:"#/definitions/responseTable/items/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema21.items.items[1],data:data54};
if(vErrors === null){
vErrors = [err115];
}
else {
vErrors.push(err115);
}
errors++;
}
}
else {
const err116 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6+"/1",schemaPath:"#/definitions/responseTable/items/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema21.items.items[1].type,parentSchema:schema21.items.items[1],data:data54};
if(vErrors === null){
vErrors = [err116];
}
else {
vErrors.push(err116);
}
errors++;
}
}
}
else {
const err117 = {instancePath:instancePath+"/site/quantumEfficiency/" + i6,schemaPath:"#/definitions/responseTable/items/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema21.items.type,parentSchema:schema21.items,data:data52};
if(vErrors === null){
vErrors = [err117];
}
else {
vErrors.push(err117);
}
errors++;
}
}
}
else {
const err118 = {instancePath:instancePath+"/site/quantumEfficiency",schemaPath:"#/definitions/responseTable/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema21.type,parentSchema:schema21,data:data51};
if(vErrors === null){
vErrors = [err118];
}
else {
vErrors.push(err118);
}
errors++;
}
var _valid2 = _errs106 === errors;
valid26 = valid26 || _valid2;
}
if(!valid26){
const err119 = {instancePath:instancePath+"/site/quantumEfficiency",schemaPath:"#/properties/site/properties/quantumEfficiency/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema11.properties.site.properties.quantumEfficiency.anyOf,parentSchema:schema11.properties.site.properties.quantumEfficiency,data:data51};
if(vErrors === null){
vErrors = [err119];
}
else {
vErrors.push(err119);
}
errors++;
}
else {
errors = _errs103;
if(vErrors !== null){
if(_errs103){
vErrors.length = _errs103;
}
else {
vErrors = null;
}
}
}
}
if(data36.siteClass !== undefined){
let data55 = data36.siteClass;
if(typeof data55 === "string"){
if(func2(data55) < 1){
const err120 = {instancePath:instancePath+"/site/siteClass",schemaPath:"#/properties/site/properties/siteClass/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.site.properties.siteClass,data:data55};
if(vErrors === null){
vErrors = [err120];
}
else {
vErrors.push(err120);
}
errors++;
}
}
else {
const err121 = {instancePath:instancePath+"/site/siteClass",schemaPath:"#/properties/site/properties/siteClass/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.site.properties.siteClass.type,parentSchema:schema11.properties.site.properties.siteClass,data:data55};
if(vErrors === null){
vErrors = [err121];
}
else {
vErrors.push(err121);
}
errors++;
}
}
if(data36.aerosol !== undefined){
let data56 = data36.aerosol;
if(data56 && typeof data56 == "object" && !Array.isArray(data56)){
if(data56.opticalDepth550 === undefined){
const err122 = {instancePath:instancePath+"/site/aerosol",schemaPath:"#/properties/site/properties/aerosol/required",keyword:"required",params:{missingProperty: "opticalDepth550"},message:"must have required property '"+"opticalDepth550"+"'",schema:schema11.properties.site.properties.aerosol.required,parentSchema:schema11.properties.site.properties.aerosol,data:data56};
if(vErrors === null){
vErrors = [err122];
}
else {
vErrors.push(err122);
}
errors++;
}
if(data56.exponent === undefined){
const err123 = {instancePath:instancePath+"/site/aerosol",schemaPath:"#/properties/site/properties/aerosol/required",keyword:"required",params:{missingProperty: "exponent"},message:"must have required property '"+"exponent"+"'",schema:schema11.properties.site.properties.aerosol.required,parentSchema:schema11.properties.site.properties.aerosol,data:data56};
if(vErrors === null){
vErrors = [err123];
}
else {
vErrors.push(err123);
}
errors++;
}
if(data56.opticalDepth550 !== undefined){
let data57 = data56.opticalDepth550;
if((typeof data57 == "number") && (isFinite(data57))){
if(data57 > 10 || isNaN(data57)){
const err124 = {instancePath:instancePath+"/site/aerosol/opticalDepth550",schemaPath:"#/properties/site/properties/aerosol/properties/opticalDepth550/maximum",keyword:"maximum",params:{comparison: "<=", limit: 10},message:"must be <= 10",schema:10,parentSchema:schema11.properties.site.properties.aerosol.properties.opticalDepth550,data:data57};
if(vErrors === null){
vErrors = [err124];
}
else {
vErrors.push(err124);
}
errors++;
}
if(data57 < 0 || isNaN(data57)){
const err125 = {instancePath:instancePath+"/site/aerosol/opticalDepth550",schemaPath:"#/properties/site/properties/aerosol/properties/opticalDepth550/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.aerosol.properties.opticalDepth550,data:data57};
if(vErrors === null){
vErrors = [err125];
}
else {
vErrors.push(err125);
}
errors++;
}
}
else {
const err126 = {instancePath:instancePath+"/site/aerosol/opticalDepth550",schemaPath:"#/properties/site/properties/aerosol/properties/opticalDepth550/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.aerosol.properties.opticalDepth550.type,parentSchema:schema11.properties.site.properties.aerosol.properties.opticalDepth550,data:data57};
if(vErrors === null){
vErrors = [err126];
}
else {
vErrors.push(err126);
}
errors++;
}
}
if(data56.exponent !== undefined){
let data58 = data56.exponent;
if((typeof data58 == "number") && (isFinite(data58))){
if(data58 > 4 || isNaN(data58)){
const err127 = {instancePath:instancePath+"/site/aerosol/exponent",schemaPath:"#/properties/site/properties/aerosol/properties/exponent/maximum",keyword:"maximum",params:{comparison: "<=", limit: 4},message:"must be <= 4",schema:4,parentSchema:schema11.properties.site.properties.aerosol.properties.exponent,data:data58};
if(vErrors === null){
vErrors = [err127];
}
else {
vErrors.push(err127);
}
errors++;
}
if(data58 < 0 || isNaN(data58)){
const err128 = {instancePath:instancePath+"/site/aerosol/exponent",schemaPath:"#/properties/site/properties/aerosol/properties/exponent/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.aerosol.properties.exponent,data:data58};
if(vErrors === null){
vErrors = [err128];
}
else {
vErrors.push(err128);
}
errors++;
}
}
else {
const err129 = {instancePath:instancePath+"/site/aerosol/exponent",schemaPath:"#/properties/site/properties/aerosol/properties/exponent/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.aerosol.properties.exponent.type,parentSchema:schema11.properties.site.properties.aerosol.properties.exponent,data:data58};
if(vErrors === null){
vErrors = [err129];
}
else {
vErrors.push(err129);
}
errors++;
}
}
}
else {
const err130 = {instancePath:instancePath+"/site/aerosol",schemaPath:"#/properties/site/properties/aerosol/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.site.properties.aerosol.type,parentSchema:schema11.properties.site.properties.aerosol,data:data56};
if(vErrors === null){
vErrors = [err130];
}
else {
vErrors.push(err130);
}
errors++;
}
}
if(data36.spectrum !== undefined){
let data59 = data36.spectrum;
if(data59 && typeof data59 == "object" && !Array.isArray(data59)){
if(data59.file === undefined){
const err131 = {instancePath:instancePath+"/site/spectrum",schemaPath:"#/properties/site/properties/spectrum/required",keyword:"required",params:{missingProperty: "file"},message:"must have required property '"+"file"+"'",schema:schema11.properties.site.properties.spectrum.required,parentSchema:schema11.properties.site.properties.spectrum,data:data59};
if(vErrors === null){
vErrors = [err131];
}
else {
vErrors.push(err131);
}
errors++;
}
if(data59.unit === undefined){
const err132 = {instancePath:instancePath+"/site/spectrum",schemaPath:"#/properties/site/properties/spectrum/required",keyword:"required",params:{missingProperty: "unit"},message:"must have required property '"+"unit"+"'",schema:schema11.properties.site.properties.spectrum.required,parentSchema:schema11.properties.site.properties.spectrum,data:data59};
if(vErrors === null){
vErrors = [err132];
}
else {
vErrors.push(err132);
}
errors++;
}
if(data59.file !== undefined){
let data60 = data59.file;
if(typeof data60 === "string"){
if(func2(data60) < 1){
const err133 = {instancePath:instancePath+"/site/spectrum/file",schemaPath:"#/properties/site/properties/spectrum/properties/file/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.site.properties.spectrum.properties.file,data:data60};
if(vErrors === null){
vErrors = [err133];
}
else {
vErrors.push(err133);
}
errors++;
}
}
else {
const err134 = {instancePath:instancePath+"/site/spectrum/file",schemaPath:"#/properties/site/properties/spectrum/properties/file/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.site.properties.spectrum.properties.file.type,parentSchema:schema11.properties.site.properties.spectrum.properties.file,data:data60};
if(vErrors === null){
vErrors = [err134];
}
else {
vErrors.push(err134);
}
errors++;
}
}
if(data59.unit !== undefined){
let data61 = data59.unit;
if(!(((data61 === "photons/s/m2/arcsec2/nm") || (data61 === "relative photons")) || (data61 === "relative energy"))){
const err135 = {instancePath:instancePath+"/site/spectrum/unit",schemaPath:"#/properties/site/properties/spectrum/properties/unit/enum",keyword:"enum",params:{allowedValues: schema11.properties.site.properties.spectrum.properties.unit.enum},message:"must be equal to one of the allowed values",schema:schema11.properties.site.properties.spectrum.properties.unit.enum,parentSchema:schema11.properties.site.properties.spectrum.properties.unit,data:data61};
if(vErrors === null){
vErrors = [err135];
}
else {
vErrors.push(err135);
}
errors++;
}
}
}
else {
const err136 = {instancePath:instancePath+"/site/spectrum",schemaPath:"#/properties/site/properties/spectrum/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.site.properties.spectrum.type,parentSchema:schema11.properties.site.properties.spectrum,data:data59};
if(vErrors === null){
vErrors = [err136];
}
else {
vErrors.push(err136);
}
errors++;
}
}
if(data36.camera !== undefined){
let data62 = data36.camera;
if(data62 && typeof data62 == "object" && !Array.isArray(data62)){
if(data62.pixelUm !== undefined){
let data63 = data62.pixelUm;
if((typeof data63 == "number") && (isFinite(data63))){
if(data63 <= 0 || isNaN(data63)){
const err137 = {instancePath:instancePath+"/site/camera/pixelUm",schemaPath:"#/properties/site/properties/camera/properties/pixelUm/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.site.properties.camera.properties.pixelUm,data:data63};
if(vErrors === null){
vErrors = [err137];
}
else {
vErrors.push(err137);
}
errors++;
}
}
else {
const err138 = {instancePath:instancePath+"/site/camera/pixelUm",schemaPath:"#/properties/site/properties/camera/properties/pixelUm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.camera.properties.pixelUm.type,parentSchema:schema11.properties.site.properties.camera.properties.pixelUm,data:data63};
if(vErrors === null){
vErrors = [err138];
}
else {
vErrors.push(err138);
}
errors++;
}
}
if(data62.readNoise !== undefined){
let data64 = data62.readNoise;
if((typeof data64 == "number") && (isFinite(data64))){
if(data64 < 0 || isNaN(data64)){
const err139 = {instancePath:instancePath+"/site/camera/readNoise",schemaPath:"#/properties/site/properties/camera/properties/readNoise/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.camera.properties.readNoise,data:data64};
if(vErrors === null){
vErrors = [err139];
}
else {
vErrors.push(err139);
}
errors++;
}
}
else {
const err140 = {instancePath:instancePath+"/site/camera/readNoise",schemaPath:"#/properties/site/properties/camera/properties/readNoise/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.camera.properties.readNoise.type,parentSchema:schema11.properties.site.properties.camera.properties.readNoise,data:data64};
if(vErrors === null){
vErrors = [err140];
}
else {
vErrors.push(err140);
}
errors++;
}
}
if(data62.darkCurrent !== undefined){
let data65 = data62.darkCurrent;
if((typeof data65 == "number") && (isFinite(data65))){
if(data65 < 0 || isNaN(data65)){
const err141 = {instancePath:instancePath+"/site/camera/darkCurrent",schemaPath:"#/properties/site/properties/camera/properties/darkCurrent/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.camera.properties.darkCurrent,data:data65};
if(vErrors === null){
vErrors = [err141];
}
else {
vErrors.push(err141);
}
errors++;
}
}
else {
const err142 = {instancePath:instancePath+"/site/camera/darkCurrent",schemaPath:"#/properties/site/properties/camera/properties/darkCurrent/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.camera.properties.darkCurrent.type,parentSchema:schema11.properties.site.properties.camera.properties.darkCurrent,data:data65};
if(vErrors === null){
vErrors = [err142];
}
else {
vErrors.push(err142);
}
errors++;
}
}
if(data62.opticsTransmittance !== undefined){
let data66 = data62.opticsTransmittance;
if((typeof data66 == "number") && (isFinite(data66))){
if(data66 > 1 || isNaN(data66)){
const err143 = {instancePath:instancePath+"/site/camera/opticsTransmittance",schemaPath:"#/properties/site/properties/camera/properties/opticsTransmittance/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema11.properties.site.properties.camera.properties.opticsTransmittance,data:data66};
if(vErrors === null){
vErrors = [err143];
}
else {
vErrors.push(err143);
}
errors++;
}
if(data66 <= 0 || isNaN(data66)){
const err144 = {instancePath:instancePath+"/site/camera/opticsTransmittance",schemaPath:"#/properties/site/properties/camera/properties/opticsTransmittance/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.site.properties.camera.properties.opticsTransmittance,data:data66};
if(vErrors === null){
vErrors = [err144];
}
else {
vErrors.push(err144);
}
errors++;
}
}
else {
const err145 = {instancePath:instancePath+"/site/camera/opticsTransmittance",schemaPath:"#/properties/site/properties/camera/properties/opticsTransmittance/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.camera.properties.opticsTransmittance.type,parentSchema:schema11.properties.site.properties.camera.properties.opticsTransmittance,data:data66};
if(vErrors === null){
vErrors = [err145];
}
else {
vErrors.push(err145);
}
errors++;
}
}
if(data62.colour !== undefined){
let data67 = data62.colour;
const _errs139 = errors;
let valid34 = false;
const _errs140 = errors;
if(typeof data67 !== "boolean"){
const err146 = {instancePath:instancePath+"/site/camera/colour",schemaPath:"#/properties/site/properties/camera/properties/colour/anyOf/0/type",keyword:"type",params:{type: "boolean"},message:"must be boolean",schema:schema11.properties.site.properties.camera.properties.colour.anyOf[0].type,parentSchema:schema11.properties.site.properties.camera.properties.colour.anyOf[0],data:data67};
if(vErrors === null){
vErrors = [err146];
}
else {
vErrors.push(err146);
}
errors++;
}
var _valid3 = _errs140 === errors;
valid34 = valid34 || _valid3;
if(!valid34){
const _errs142 = errors;
if(data67 && typeof data67 == "object" && !Array.isArray(data67)){
if(data67.red === undefined){
const err147 = {instancePath:instancePath+"/site/camera/colour",schemaPath:"#/properties/site/properties/camera/properties/colour/anyOf/1/required",keyword:"required",params:{missingProperty: "red"},message:"must have required property '"+"red"+"'",schema:schema11.properties.site.properties.camera.properties.colour.anyOf[1].required,parentSchema:schema11.properties.site.properties.camera.properties.colour.anyOf[1],data:data67};
if(vErrors === null){
vErrors = [err147];
}
else {
vErrors.push(err147);
}
errors++;
}
if(data67.green === undefined){
const err148 = {instancePath:instancePath+"/site/camera/colour",schemaPath:"#/properties/site/properties/camera/properties/colour/anyOf/1/required",keyword:"required",params:{missingProperty: "green"},message:"must have required property '"+"green"+"'",schema:schema11.properties.site.properties.camera.properties.colour.anyOf[1].required,parentSchema:schema11.properties.site.properties.camera.properties.colour.anyOf[1],data:data67};
if(vErrors === null){
vErrors = [err148];
}
else {
vErrors.push(err148);
}
errors++;
}
if(data67.blue === undefined){
const err149 = {instancePath:instancePath+"/site/camera/colour",schemaPath:"#/properties/site/properties/camera/properties/colour/anyOf/1/required",keyword:"required",params:{missingProperty: "blue"},message:"must have required property '"+"blue"+"'",schema:schema11.properties.site.properties.camera.properties.colour.anyOf[1].required,parentSchema:schema11.properties.site.properties.camera.properties.colour.anyOf[1],data:data67};
if(vErrors === null){
vErrors = [err149];
}
else {
vErrors.push(err149);
}
errors++;
}
if(data67.red !== undefined){
let data68 = data67.red;
if(Array.isArray(data68)){
if(data68.length < 2){
const err150 = {instancePath:instancePath+"/site/camera/colour/red",schemaPath:"#/definitions/responseTable/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema21,data:data68};
if(vErrors === null){
vErrors = [err150];
}
else {
vErrors.push(err150);
}
errors++;
}
const len8 = data68.length;
for(let i7=0; i7<len8; i7++){
let data69 = data68[i7];
if(Array.isArray(data69)){
if(data69.length > 2){
const err151 = {instancePath:instancePath+"/site/camera/colour/red/" + i7,schemaPath:"#/definitions/responseTable/items/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema21.items,data:data69};
if(vErrors === null){
vErrors = [err151];
}
else {
vErrors.push(err151);
}
errors++;
}
if(data69.length < 2){
const err152 = {instancePath:instancePath+"/site/camera/colour/red/" + i7,schemaPath:"#/definitions/responseTable/items/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema21.items,data:data69};
if(vErrors === null){
vErrors = [err152];
}
else {
vErrors.push(err152);
}
errors++;
}
const len9 = data69.length;
if(len9 > 0){
let data70 = data69[0];
if((typeof data70 == "number") && (isFinite(data70))){
if(data70 <= 0 || isNaN(data70)){
const err153 = {instancePath:instancePath+"/site/camera/colour/red/" + i7+"/0",schemaPath:"#/definitions/responseTable/items/items/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema21.items.items[0],data:data70};
if(vErrors === null){
vErrors = [err153];
}
else {
vErrors.push(err153);
}
errors++;
}
}
else {
const err154 = {instancePath:instancePath+"/site/camera/colour/red/" + i7+"/0",schemaPath:"#/definitions/responseTable/items/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema21.items.items[0].type,parentSchema:schema21.items.items[0],data:data70};
if(vErrors === null){
vErrors = [err154];
}
else {
vErrors.push(err154);
}
errors++;
}
}
if(len9 > 1){
let data71 = data69[1];
if((typeof data71 == "number") && (isFinite(data71))){
if(data71 > 1 || isNaN(data71)){
const err155 = {instancePath:instancePath+"/site/camera/colour/red/" + i7+"/1",schemaPath:"#/definitions/responseTable/items/items/1/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema21.items.items[1],data:data71};
if(vErrors === null){
vErrors = [err155];
}
else {
vErrors.push(err155);
}
errors++;
}
if(data71 < 0 || isNaN(data71)){
const err156 = {instancePath:instancePath+"/site/camera/colour/red/" + i7+"/1",schemaPath:"#/definitions/responseTable/items/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema21.items.items[1],data:data71};
if(vErrors === null){
vErrors = [err156];
}
else {
vErrors.push(err156);
}
errors++;
}
}
else {
const err157 = {instancePath:instancePath+"/site/camera/colour/red/" + i7+"/1",schemaPath:"#/definitions/responseTable/items/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema21.items.items[1].type,parentSchema:schema21.items.items[1],data:data71};
if(vErrors === null){
vErrors = [err157];
}
else {
vErrors.push(err157);
}
errors++;
}
}
}
else {
const err158 = {instancePath:instancePath+"/site/camera/colour/red/" + i7,schemaPath:"#/definitions/responseTable/items/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema21.items.type,parentSchema:schema21.items,data:data69};
if(vErrors === null){
vErrors = [err158];
}
else {
vErrors.push(err158);
}
errors++;
}
}
}
else {
const err159 = {instancePath:instancePath+"/site/camera/colour/red",schemaPath:"#/definitions/responseTable/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema21.type,parentSchema:schema21,data:data68};
if(vErrors === null){
vErrors = [err159];
}
else {
vErrors.push(err159);
}
errors++;
}
}
if(data67.green !== undefined){
let data72 = data67.green;
if(Array.isArray(data72)){
if(data72.length < 2){
const err160 = {instancePath:instancePath+"/site/camera/colour/green",schemaPath:"#/definitions/responseTable/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema21,data:data72};
if(vErrors === null){
vErrors = [err160];
}
else {
vErrors.push(err160);
}
errors++;
}
const len10 = data72.length;
for(let i8=0; i8<len10; i8++){
let data73 = data72[i8];
if(Array.isArray(data73)){
if(data73.length > 2){
const err161 = {instancePath:instancePath+"/site/camera/colour/green/" + i8,schemaPath:"#/definitions/responseTable/items/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema21.items,data:data73};
if(vErrors === null){
vErrors = [err161];
}
else {
vErrors.push(err161);
}
errors++;
}
if(data73.length < 2){
const err162 = {instancePath:instancePath+"/site/camera/colour/green/" + i8,schemaPath:"#/definitions/responseTable/items/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema21.items,data:data73};
if(vErrors === null){
vErrors = [err162];
}
else {
vErrors.push(err162);
}
errors++;
}
const len11 = data73.length;
if(len11 > 0){
let data74 = data73[0];
if((typeof data74 == "number") && (isFinite(data74))){
if(data74 <= 0 || isNaN(data74)){
const err163 = {instancePath:instancePath+"/site/camera/colour/green/" + i8+"/0",schemaPath:"#/definitions/responseTable/items/items/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema21.items.items[0],data:data74};
if(vErrors === null){
vErrors = [err163];
}
else {
vErrors.push(err163);
}
errors++;
}
}
else {
const err164 = {instancePath:instancePath+"/site/camera/colour/green/" + i8+"/0",schemaPath:"#/definitions/responseTable/items/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema21.items.items[0].type,parentSchema:schema21.items.items[0],data:data74};
if(vErrors === null){
vErrors = [err164];
}
else {
vErrors.push(err164);
}
errors++;
}
}
if(len11 > 1){
let data75 = data73[1];
if((typeof data75 == "number") && (isFinite(data75))){
if(data75 > 1 || isNaN(data75)){
const err165 = {instancePath:instancePath+"/site/camera/colour/green/" + i8+"/1",schemaPath:"#/definitions/responseTable/items/items/1/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema21.items.items[1],data:data75};
if(vErrors === null){
vErrors = [err165];
}
else {
vErrors.push(err165);
}
errors++;
}
if(data75 < 0 || isNaN(data75)){
const err166 = {instancePath:instancePath+"/site/camera/colour/green/" + i8+"/1",schemaPath:"#/definitions/responseTable/items/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema21.items.items[1],data:data75};
if(vErrors === null){
vErrors = [err166];
}
else {
vErrors.push(err166);
}
errors++;
}
}
else {
const err167 = {instancePath:instancePath+"/site/camera/colour/green/" + i8+"/1",schemaPath:"#/definitions/responseTable/items/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema21.items.items[1].type,parentSchema:schema21.items.items[1],data:data75};
if(vErrors === null){
vErrors = [err167];
}
else {
vErrors.push(err167);
}
errors++;
}
}
}
else {
const err168 = {instancePath:instancePath+"/site/camera/colour/green/" + i8,schemaPath:"#/definitions/responseTable/items/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema21.items.type,parentSchema:schema21.items,data:data73};
if(vErrors === null){
vErrors = [err168];
}
else {
vErrors.push(err168);
}
errors++;
}
}
}
else {
const err169 = {instancePath:instancePath+"/site/camera/colour/green",schemaPath:"#/definitions/responseTable/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema21.type,parentSchema:schema21,data:data72};
if(vErrors === null){
vErrors = [err169];
}
else {
vErrors.push(err169);
}
errors++;
}
}
if(data67.blue !== undefined){
let data76 = data67.blue;
if(Array.isArray(data76)){
if(data76.length < 2){
const err170 = {instancePath:instancePath+"/site/camera/colour/blue",schemaPath:"#/definitions/responseTable/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema21,data:data76};
if(vErrors === null){
vErrors = [err170];
}
else {
vErrors.push(err170);
}
errors++;
}
const len12 = data76.length;
for(let i9=0; i9<len12; i9++){
let data77 = data76[i9];
if(Array.isArray(data77)){
if(data77.length > 2){
const err171 = {instancePath:instancePath+"/site/camera/colour/blue/" + i9,schemaPath:"#/definitions/responseTable/items/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema21.items,data:data77};
if(vErrors === null){
vErrors = [err171];
}
else {
vErrors.push(err171);
}
errors++;
}
if(data77.length < 2){
const err172 = {instancePath:instancePath+"/site/camera/colour/blue/" + i9,schemaPath:"#/definitions/responseTable/items/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema21.items,data:data77};
if(vErrors === null){
vErrors = [err172];
}
else {
vErrors.push(err172);
}
errors++;
}
const len13 = data77.length;
if(len13 > 0){
let data78 = data77[0];
if((typeof data78 == "number") && (isFinite(data78))){
if(data78 <= 0 || isNaN(data78)){
const err173 = {instancePath:instancePath+"/site/camera/colour/blue/" + i9+"/0",schemaPath:"#/definitions/responseTable/items/items/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema21.items.items[0],data:data78};
if(vErrors === null){
vErrors = [err173];
}
else {
vErrors.push(err173);
}
errors++;
}
}
else {
const err174 = {instancePath:instancePath+"/site/camera/colour/blue/" + i9+"/0",schemaPath:"#/definitions/responseTable/items/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema21.items.items[0].type,parentSchema:schema21.items.items[0],data:data78};
if(vErrors === null){
vErrors = [err174];
}
else {
vErrors.push(err174);
}
errors++;
}
}
if(len13 > 1){
let data79 = data77[1];
if((typeof data79 == "number") && (isFinite(data79))){
if(data79 > 1 || isNaN(data79)){
const err175 = {instancePath:instancePath+"/site/camera/colour/blue/" + i9+"/1",schemaPath:"#/definitions/responseTable/items/items/1/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema21.items.items[1],data:data79};
if(vErrors === null){
vErrors = [err175];
}
else {
vErrors.push(err175);
}
errors++;
}
if(data79 < 0 || isNaN(data79)){
const err176 = {instancePath:instancePath+"/site/camera/colour/blue/" + i9+"/1",schemaPath:"#/definitions/responseTable/items/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema21.items.items[1],data:data79};
if(vErrors === null){
vErrors = [err176];
}
else {
vErrors.push(err176);
}
errors++;
}
}
else {
const err177 = {instancePath:instancePath+"/site/camera/colour/blue/" + i9+"/1",schemaPath:"#/definitions/responseTable/items/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema21.items.items[1].type,parentSchema:schema21.items.items[1],data:data79};
if(vErrors === null){
vErrors = [err177];
}
else {
vErrors.push(err177);
}
errors++;
}
}
}
else {
const err178 = {instancePath:instancePath+"/site/camera/colour/blue/" + i9,schemaPath:"#/definitions/responseTable/items/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema21.items.type,parentSchema:schema21.items,data:data77};
if(vErrors === null){
vErrors = [err178];
}
else {
vErrors.push(err178);
}
errors++;
}
}
}
else {
const err179 = {instancePath:instancePath+"/site/camera/colour/blue",schemaPath:"#/definitions/responseTable/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema21.type,parentSchema:schema21,data:data76};
if(vErrors === null){
vErrors = [err179];
}
else {
vErrors.push(err179);
}
errors++;
}
}
}
else {
const err180 = {instancePath:instancePath+"/site/camera/colour",schemaPath:"#/properties/site/properties/camera/properties/colour/anyOf/1/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.site.properties.camera.properties.colour.anyOf[1].type,parentSchema:schema11.properties.site.properties.camera.properties.colour.anyOf[1],data:data67};
if(vErrors === null){
vErrors = [err180];
}
else {
vErrors.push(err180);
}
errors++;
}
var _valid3 = _errs142 === errors;
valid34 = valid34 || _valid3;
}
if(!valid34){
const err181 = {instancePath:instancePath+"/site/camera/colour",schemaPath:"#/properties/site/properties/camera/properties/colour/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema11.properties.site.properties.camera.properties.colour.anyOf,parentSchema:schema11.properties.site.properties.camera.properties.colour,data:data67};
if(vErrors === null){
vErrors = [err181];
}
else {
vErrors.push(err181);
}
errors++;
}
else {
errors = _errs139;
if(vErrors !== null){
if(_errs139){
vErrors.length = _errs139;
}
else {
vErrors = null;
}
}
}
}
}
else {
const err182 = {instancePath:instancePath+"/site/camera",schemaPath:"#/properties/site/properties/camera/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.site.properties.camera.type,parentSchema:schema11.properties.site.properties.camera,data:data62};
if(vErrors === null){
vErrors = [err182];
}
else {
vErrors.push(err182);
}
errors++;
}
}
if(data36.targets !== undefined){
let data80 = data36.targets;
if(Array.isArray(data80)){
const len14 = data80.length;
for(let i10=0; i10<len14; i10++){
let data81 = data80[i10];
if(data81 && typeof data81 == "object" && !Array.isArray(data81)){
if(data81.line === undefined){
const err183 = {instancePath:instancePath+"/site/targets/" + i10,schemaPath:"#/properties/site/properties/targets/items/required",keyword:"required",params:{missingProperty: "line"},message:"must have required property '"+"line"+"'",schema:schema11.properties.site.properties.targets.items.required,parentSchema:schema11.properties.site.properties.targets.items,data:data81};
if(vErrors === null){
vErrors = [err183];
}
else {
vErrors.push(err183);
}
errors++;
}
if(data81.value === undefined){
const err184 = {instancePath:instancePath+"/site/targets/" + i10,schemaPath:"#/properties/site/properties/targets/items/required",keyword:"required",params:{missingProperty: "value"},message:"must have required property '"+"value"+"'",schema:schema11.properties.site.properties.targets.items.required,parentSchema:schema11.properties.site.properties.targets.items,data:data81};
if(vErrors === null){
vErrors = [err184];
}
else {
vErrors.push(err184);
}
errors++;
}
if(data81.unit === undefined){
const err185 = {instancePath:instancePath+"/site/targets/" + i10,schemaPath:"#/properties/site/properties/targets/items/required",keyword:"required",params:{missingProperty: "unit"},message:"must have required property '"+"unit"+"'",schema:schema11.properties.site.properties.targets.items.required,parentSchema:schema11.properties.site.properties.targets.items,data:data81};
if(vErrors === null){
vErrors = [err185];
}
else {
vErrors.push(err185);
}
errors++;
}
if(data81.line !== undefined){
let data82 = data81.line;
if(typeof data82 === "string"){
if(func2(data82) < 1){
const err186 = {instancePath:instancePath+"/site/targets/" + i10+"/line",schemaPath:"#/properties/site/properties/targets/items/properties/line/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.site.properties.targets.items.properties.line,data:data82};
if(vErrors === null){
vErrors = [err186];
}
else {
vErrors.push(err186);
}
errors++;
}
}
else {
const err187 = {instancePath:instancePath+"/site/targets/" + i10+"/line",schemaPath:"#/properties/site/properties/targets/items/properties/line/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.site.properties.targets.items.properties.line.type,parentSchema:schema11.properties.site.properties.targets.items.properties.line,data:data82};
if(vErrors === null){
vErrors = [err187];
}
else {
vErrors.push(err187);
}
errors++;
}
}
if(data81.value !== undefined){
let data83 = data81.value;
if((typeof data83 == "number") && (isFinite(data83))){
if(data83 < 0 || isNaN(data83)){
const err188 = {instancePath:instancePath+"/site/targets/" + i10+"/value",schemaPath:"#/properties/site/properties/targets/items/properties/value/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.targets.items.properties.value,data:data83};
if(vErrors === null){
vErrors = [err188];
}
else {
vErrors.push(err188);
}
errors++;
}
}
else {
const err189 = {instancePath:instancePath+"/site/targets/" + i10+"/value",schemaPath:"#/properties/site/properties/targets/items/properties/value/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.targets.items.properties.value.type,parentSchema:schema11.properties.site.properties.targets.items.properties.value,data:data83};
if(vErrors === null){
vErrors = [err189];
}
else {
vErrors.push(err189);
}
errors++;
}
}
if(data81.uncertainty !== undefined){
let data84 = data81.uncertainty;
if((typeof data84 == "number") && (isFinite(data84))){
if(data84 < 0 || isNaN(data84)){
const err190 = {instancePath:instancePath+"/site/targets/" + i10+"/uncertainty",schemaPath:"#/properties/site/properties/targets/items/properties/uncertainty/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.site.properties.targets.items.properties.uncertainty,data:data84};
if(vErrors === null){
vErrors = [err190];
}
else {
vErrors.push(err190);
}
errors++;
}
}
else {
const err191 = {instancePath:instancePath+"/site/targets/" + i10+"/uncertainty",schemaPath:"#/properties/site/properties/targets/items/properties/uncertainty/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.targets.items.properties.uncertainty.type,parentSchema:schema11.properties.site.properties.targets.items.properties.uncertainty,data:data84};
if(vErrors === null){
vErrors = [err191];
}
else {
vErrors.push(err191);
}
errors++;
}
}
if(data81.unit !== undefined){
let data85 = data81.unit;
if(!((data85 === "rayleigh") || (data85 === "erg/s/cm2/arcsec2"))){
const err192 = {instancePath:instancePath+"/site/targets/" + i10+"/unit",schemaPath:"#/properties/site/properties/targets/items/properties/unit/enum",keyword:"enum",params:{allowedValues: schema11.properties.site.properties.targets.items.properties.unit.enum},message:"must be equal to one of the allowed values",schema:schema11.properties.site.properties.targets.items.properties.unit.enum,parentSchema:schema11.properties.site.properties.targets.items.properties.unit,data:data85};
if(vErrors === null){
vErrors = [err192];
}
else {
vErrors.push(err192);
}
errors++;
}
}
}
else {
const err193 = {instancePath:instancePath+"/site/targets/" + i10,schemaPath:"#/properties/site/properties/targets/items/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.site.properties.targets.items.type,parentSchema:schema11.properties.site.properties.targets.items,data:data81};
if(vErrors === null){
vErrors = [err193];
}
else {
vErrors.push(err193);
}
errors++;
}
}
}
else {
const err194 = {instancePath:instancePath+"/site/targets",schemaPath:"#/properties/site/properties/targets/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.site.properties.targets.type,parentSchema:schema11.properties.site.properties.targets,data:data80};
if(vErrors === null){
vErrors = [err194];
}
else {
vErrors.push(err194);
}
errors++;
}
}
if(data36.rangeNm !== undefined){
let data86 = data36.rangeNm;
if(Array.isArray(data86)){
if(data86.length > 2){
const err195 = {instancePath:instancePath+"/site/rangeNm",schemaPath:"#/properties/site/properties/rangeNm/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema11.properties.site.properties.rangeNm,data:data86};
if(vErrors === null){
vErrors = [err195];
}
else {
vErrors.push(err195);
}
errors++;
}
if(data86.length < 2){
const err196 = {instancePath:instancePath+"/site/rangeNm",schemaPath:"#/properties/site/properties/rangeNm/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema11.properties.site.properties.rangeNm,data:data86};
if(vErrors === null){
vErrors = [err196];
}
else {
vErrors.push(err196);
}
errors++;
}
const len15 = data86.length;
if(len15 > 0){
let data87 = data86[0];
if((typeof data87 == "number") && (isFinite(data87))){
if(data87 > 1000 || isNaN(data87)){
const err197 = {instancePath:instancePath+"/site/rangeNm/0",schemaPath:"#/properties/site/properties/rangeNm/items/0/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1000},message:"must be <= 1000",schema:1000,parentSchema:schema11.properties.site.properties.rangeNm.items[0],data:data87};
if(vErrors === null){
vErrors = [err197];
}
else {
vErrors.push(err197);
}
errors++;
}
if(data87 < 350 || isNaN(data87)){
const err198 = {instancePath:instancePath+"/site/rangeNm/0",schemaPath:"#/properties/site/properties/rangeNm/items/0/minimum",keyword:"minimum",params:{comparison: ">=", limit: 350},message:"must be >= 350",schema:350,parentSchema:schema11.properties.site.properties.rangeNm.items[0],data:data87};
if(vErrors === null){
vErrors = [err198];
}
else {
vErrors.push(err198);
}
errors++;
}
}
else {
const err199 = {instancePath:instancePath+"/site/rangeNm/0",schemaPath:"#/properties/site/properties/rangeNm/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.rangeNm.items[0].type,parentSchema:schema11.properties.site.properties.rangeNm.items[0],data:data87};
if(vErrors === null){
vErrors = [err199];
}
else {
vErrors.push(err199);
}
errors++;
}
}
if(len15 > 1){
let data88 = data86[1];
if((typeof data88 == "number") && (isFinite(data88))){
if(data88 > 1000 || isNaN(data88)){
const err200 = {instancePath:instancePath+"/site/rangeNm/1",schemaPath:"#/properties/site/properties/rangeNm/items/1/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1000},message:"must be <= 1000",schema:1000,parentSchema:schema11.properties.site.properties.rangeNm.items[1],data:data88};
if(vErrors === null){
vErrors = [err200];
}
else {
vErrors.push(err200);
}
errors++;
}
if(data88 < 350 || isNaN(data88)){
const err201 = {instancePath:instancePath+"/site/rangeNm/1",schemaPath:"#/properties/site/properties/rangeNm/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 350},message:"must be >= 350",schema:350,parentSchema:schema11.properties.site.properties.rangeNm.items[1],data:data88};
if(vErrors === null){
vErrors = [err201];
}
else {
vErrors.push(err201);
}
errors++;
}
}
else {
const err202 = {instancePath:instancePath+"/site/rangeNm/1",schemaPath:"#/properties/site/properties/rangeNm/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.rangeNm.items[1].type,parentSchema:schema11.properties.site.properties.rangeNm.items[1],data:data88};
if(vErrors === null){
vErrors = [err202];
}
else {
vErrors.push(err202);
}
errors++;
}
}
}
else {
const err203 = {instancePath:instancePath+"/site/rangeNm",schemaPath:"#/properties/site/properties/rangeNm/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.site.properties.rangeNm.type,parentSchema:schema11.properties.site.properties.rangeNm,data:data86};
if(vErrors === null){
vErrors = [err203];
}
else {
vErrors.push(err203);
}
errors++;
}
}
if(data36.signalToNoise !== undefined){
let data89 = data36.signalToNoise;
if((typeof data89 == "number") && (isFinite(data89))){
if(data89 <= 0 || isNaN(data89)){
const err204 = {instancePath:instancePath+"/site/signalToNoise",schemaPath:"#/properties/site/properties/signalToNoise/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.site.properties.signalToNoise,data:data89};
if(vErrors === null){
vErrors = [err204];
}
else {
vErrors.push(err204);
}
errors++;
}
}
else {
const err205 = {instancePath:instancePath+"/site/signalToNoise",schemaPath:"#/properties/site/properties/signalToNoise/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.signalToNoise.type,parentSchema:schema11.properties.site.properties.signalToNoise,data:data89};
if(vErrors === null){
vErrors = [err205];
}
else {
vErrors.push(err205);
}
errors++;
}
}
if(data36.frameS !== undefined){
let data90 = data36.frameS;
if((typeof data90 == "number") && (isFinite(data90))){
if(data90 <= 0 || isNaN(data90)){
const err206 = {instancePath:instancePath+"/site/frameS",schemaPath:"#/properties/site/properties/frameS/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.site.properties.frameS,data:data90};
if(vErrors === null){
vErrors = [err206];
}
else {
vErrors.push(err206);
}
errors++;
}
}
else {
const err207 = {instancePath:instancePath+"/site/frameS",schemaPath:"#/properties/site/properties/frameS/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.frameS.type,parentSchema:schema11.properties.site.properties.frameS,data:data90};
if(vErrors === null){
vErrors = [err207];
}
else {
vErrors.push(err207);
}
errors++;
}
}
if(data36.nightHours !== undefined){
let data91 = data36.nightHours;
if((typeof data91 == "number") && (isFinite(data91))){
if(data91 > 24 || isNaN(data91)){
const err208 = {instancePath:instancePath+"/site/nightHours",schemaPath:"#/properties/site/properties/nightHours/maximum",keyword:"maximum",params:{comparison: "<=", limit: 24},message:"must be <= 24",schema:24,parentSchema:schema11.properties.site.properties.nightHours,data:data91};
if(vErrors === null){
vErrors = [err208];
}
else {
vErrors.push(err208);
}
errors++;
}
if(data91 <= 0 || isNaN(data91)){
const err209 = {instancePath:instancePath+"/site/nightHours",schemaPath:"#/properties/site/properties/nightHours/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.site.properties.nightHours,data:data91};
if(vErrors === null){
vErrors = [err209];
}
else {
vErrors.push(err209);
}
errors++;
}
}
else {
const err210 = {instancePath:instancePath+"/site/nightHours",schemaPath:"#/properties/site/properties/nightHours/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.nightHours.type,parentSchema:schema11.properties.site.properties.nightHours,data:data91};
if(vErrors === null){
vErrors = [err210];
}
else {
vErrors.push(err210);
}
errors++;
}
}
if(data36.nights !== undefined){
let data92 = data36.nights;
if((typeof data92 == "number") && (isFinite(data92))){
if(data92 <= 0 || isNaN(data92)){
const err211 = {instancePath:instancePath+"/site/nights",schemaPath:"#/properties/site/properties/nights/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.site.properties.nights,data:data92};
if(vErrors === null){
vErrors = [err211];
}
else {
vErrors.push(err211);
}
errors++;
}
}
else {
const err212 = {instancePath:instancePath+"/site/nights",schemaPath:"#/properties/site/properties/nights/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.site.properties.nights.type,parentSchema:schema11.properties.site.properties.nights,data:data92};
if(vErrors === null){
vErrors = [err212];
}
else {
vErrors.push(err212);
}
errors++;
}
}
}
else {
const err213 = {instancePath:instancePath+"/site",schemaPath:"#/properties/site/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.site.type,parentSchema:schema11.properties.site,data:data36};
if(vErrors === null){
vErrors = [err213];
}
else {
vErrors.push(err213);
}
errors++;
}
}
if(data.decision !== undefined){
let data93 = data.decision;
if(data93 && typeof data93 == "object" && !Array.isArray(data93)){
if(data93.rule === undefined){
const err214 = {instancePath:instancePath+"/decision",schemaPath:"#/properties/decision/required",keyword:"required",params:{missingProperty: "rule"},message:"must have required property '"+"rule"+"'",schema:schema11.properties.decision.required,parentSchema:schema11.properties.decision,data:data93};
if(vErrors === null){
vErrors = [err214];
}
else {
vErrors.push(err214);
}
errors++;
}
if(data93.rule !== undefined){
let data94 = data93.rule;
if(!(((data94 === "probability") || (data94 === "simple")) || (data94 === "guarded"))){
const err215 = {instancePath:instancePath+"/decision/rule",schemaPath:"#/properties/decision/properties/rule/enum",keyword:"enum",params:{allowedValues: schema11.properties.decision.properties.rule.enum},message:"must be equal to one of the allowed values",schema:schema11.properties.decision.properties.rule.enum,parentSchema:schema11.properties.decision.properties.rule,data:data94};
if(vErrors === null){
vErrors = [err215];
}
else {
vErrors.push(err215);
}
errors++;
}
}
if(data93.probability !== undefined){
let data95 = data93.probability;
if((typeof data95 == "number") && (isFinite(data95))){
if(data95 >= 1 || isNaN(data95)){
const err216 = {instancePath:instancePath+"/decision/probability",schemaPath:"#/properties/decision/properties/probability/exclusiveMaximum",keyword:"exclusiveMaximum",params:{comparison: "<", limit: 1},message:"must be < 1",schema:1,parentSchema:schema11.properties.decision.properties.probability,data:data95};
if(vErrors === null){
vErrors = [err216];
}
else {
vErrors.push(err216);
}
errors++;
}
if(data95 <= 0.5 || isNaN(data95)){
const err217 = {instancePath:instancePath+"/decision/probability",schemaPath:"#/properties/decision/properties/probability/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0.5},message:"must be > 0.5",schema:0.5,parentSchema:schema11.properties.decision.properties.probability,data:data95};
if(vErrors === null){
vErrors = [err217];
}
else {
vErrors.push(err217);
}
errors++;
}
}
else {
const err218 = {instancePath:instancePath+"/decision/probability",schemaPath:"#/properties/decision/properties/probability/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.decision.properties.probability.type,parentSchema:schema11.properties.decision.properties.probability,data:data95};
if(vErrors === null){
vErrors = [err218];
}
else {
vErrors.push(err218);
}
errors++;
}
}
if(data93.multiple !== undefined){
let data96 = data93.multiple;
if((typeof data96 == "number") && (isFinite(data96))){
if(data96 > 10 || isNaN(data96)){
const err219 = {instancePath:instancePath+"/decision/multiple",schemaPath:"#/properties/decision/properties/multiple/maximum",keyword:"maximum",params:{comparison: "<=", limit: 10},message:"must be <= 10",schema:10,parentSchema:schema11.properties.decision.properties.multiple,data:data96};
if(vErrors === null){
vErrors = [err219];
}
else {
vErrors.push(err219);
}
errors++;
}
if(data96 < 0 || isNaN(data96)){
const err220 = {instancePath:instancePath+"/decision/multiple",schemaPath:"#/properties/decision/properties/multiple/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.decision.properties.multiple,data:data96};
if(vErrors === null){
vErrors = [err220];
}
else {
vErrors.push(err220);
}
errors++;
}
}
else {
const err221 = {instancePath:instancePath+"/decision/multiple",schemaPath:"#/properties/decision/properties/multiple/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.decision.properties.multiple.type,parentSchema:schema11.properties.decision.properties.multiple,data:data96};
if(vErrors === null){
vErrors = [err221];
}
else {
vErrors.push(err221);
}
errors++;
}
}
if(data93.coverageFactor !== undefined){
let data97 = data93.coverageFactor;
if((typeof data97 == "number") && (isFinite(data97))){
if(data97 > 10 || isNaN(data97)){
const err222 = {instancePath:instancePath+"/decision/coverageFactor",schemaPath:"#/properties/decision/properties/coverageFactor/maximum",keyword:"maximum",params:{comparison: "<=", limit: 10},message:"must be <= 10",schema:10,parentSchema:schema11.properties.decision.properties.coverageFactor,data:data97};
if(vErrors === null){
vErrors = [err222];
}
else {
vErrors.push(err222);
}
errors++;
}
if(data97 <= 0 || isNaN(data97)){
const err223 = {instancePath:instancePath+"/decision/coverageFactor",schemaPath:"#/properties/decision/properties/coverageFactor/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.decision.properties.coverageFactor,data:data97};
if(vErrors === null){
vErrors = [err223];
}
else {
vErrors.push(err223);
}
errors++;
}
}
else {
const err224 = {instancePath:instancePath+"/decision/coverageFactor",schemaPath:"#/properties/decision/properties/coverageFactor/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.decision.properties.coverageFactor.type,parentSchema:schema11.properties.decision.properties.coverageFactor,data:data97};
if(vErrors === null){
vErrors = [err224];
}
else {
vErrors.push(err224);
}
errors++;
}
}
}
else {
const err225 = {instancePath:instancePath+"/decision",schemaPath:"#/properties/decision/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.decision.type,parentSchema:schema11.properties.decision,data:data93};
if(vErrors === null){
vErrors = [err225];
}
else {
vErrors.push(err225);
}
errors++;
}
}
if(data.bench !== undefined){
let data98 = data.bench;
if(data98 && typeof data98 == "object" && !Array.isArray(data98)){
if(data98.fNumber !== undefined){
let data99 = data98.fNumber;
if((typeof data99 == "number") && (isFinite(data99))){
if(data99 <= 0 || isNaN(data99)){
const err226 = {instancePath:instancePath+"/bench/fNumber",schemaPath:"#/properties/bench/properties/fNumber/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.bench.properties.fNumber,data:data99};
if(vErrors === null){
vErrors = [err226];
}
else {
vErrors.push(err226);
}
errors++;
}
}
else {
const err227 = {instancePath:instancePath+"/bench/fNumber",schemaPath:"#/properties/bench/properties/fNumber/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.bench.properties.fNumber.type,parentSchema:schema11.properties.bench.properties.fNumber,data:data99};
if(vErrors === null){
vErrors = [err227];
}
else {
vErrors.push(err227);
}
errors++;
}
}
if(data98.temperatureC !== undefined){
let data100 = data98.temperatureC;
if((typeof data100 == "number") && (isFinite(data100))){
if(data100 > 200 || isNaN(data100)){
const err228 = {instancePath:instancePath+"/bench/temperatureC",schemaPath:"#/properties/bench/properties/temperatureC/maximum",keyword:"maximum",params:{comparison: "<=", limit: 200},message:"must be <= 200",schema:200,parentSchema:schema11.properties.bench.properties.temperatureC,data:data100};
if(vErrors === null){
vErrors = [err228];
}
else {
vErrors.push(err228);
}
errors++;
}
if(data100 < -100 || isNaN(data100)){
const err229 = {instancePath:instancePath+"/bench/temperatureC",schemaPath:"#/properties/bench/properties/temperatureC/minimum",keyword:"minimum",params:{comparison: ">=", limit: -100},message:"must be >= -100",schema:-100,parentSchema:schema11.properties.bench.properties.temperatureC,data:data100};
if(vErrors === null){
vErrors = [err229];
}
else {
vErrors.push(err229);
}
errors++;
}
}
else {
const err230 = {instancePath:instancePath+"/bench/temperatureC",schemaPath:"#/properties/bench/properties/temperatureC/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.bench.properties.temperatureC.type,parentSchema:schema11.properties.bench.properties.temperatureC,data:data100};
if(vErrors === null){
vErrors = [err230];
}
else {
vErrors.push(err230);
}
errors++;
}
}
if(data98.spot !== undefined){
let data101 = data98.spot;
if(typeof data101 === "string"){
if(func2(data101) > 200){
const err231 = {instancePath:instancePath+"/bench/spot",schemaPath:"#/properties/bench/properties/spot/maxLength",keyword:"maxLength",params:{limit: 200},message:"must NOT have more than 200 characters",schema:200,parentSchema:schema11.properties.bench.properties.spot,data:data101};
if(vErrors === null){
vErrors = [err231];
}
else {
vErrors.push(err231);
}
errors++;
}
if(func2(data101) < 1){
const err232 = {instancePath:instancePath+"/bench/spot",schemaPath:"#/properties/bench/properties/spot/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.bench.properties.spot,data:data101};
if(vErrors === null){
vErrors = [err232];
}
else {
vErrors.push(err232);
}
errors++;
}
}
else {
const err233 = {instancePath:instancePath+"/bench/spot",schemaPath:"#/properties/bench/properties/spot/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.bench.properties.spot.type,parentSchema:schema11.properties.bench.properties.spot,data:data101};
if(vErrors === null){
vErrors = [err233];
}
else {
vErrors.push(err233);
}
errors++;
}
}
}
else {
const err234 = {instancePath:instancePath+"/bench",schemaPath:"#/properties/bench/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.bench.type,parentSchema:schema11.properties.bench,data:data98};
if(vErrors === null){
vErrors = [err234];
}
else {
vErrors.push(err234);
}
errors++;
}
}
if(data.beam !== undefined){
let data102 = data.beam;
if(data102 && typeof data102 == "object" && !Array.isArray(data102)){
if(data102.fNumber !== undefined){
let data103 = data102.fNumber;
const _errs216 = errors;
let valid55 = false;
const _errs217 = errors;
if((typeof data103 == "number") && (isFinite(data103))){
if(data103 <= 0 || isNaN(data103)){
const err235 = {instancePath:instancePath+"/beam/fNumber",schemaPath:"#/properties/beam/properties/fNumber/anyOf/0/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.beam.properties.fNumber.anyOf[0],data:data103};
if(vErrors === null){
vErrors = [err235];
}
else {
vErrors.push(err235);
}
errors++;
}
}
else {
const err236 = {instancePath:instancePath+"/beam/fNumber",schemaPath:"#/properties/beam/properties/fNumber/anyOf/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.fNumber.anyOf[0].type,parentSchema:schema11.properties.beam.properties.fNumber.anyOf[0],data:data103};
if(vErrors === null){
vErrors = [err236];
}
else {
vErrors.push(err236);
}
errors++;
}
var _valid4 = _errs217 === errors;
valid55 = valid55 || _valid4;
if(!valid55){
const _errs219 = errors;
if(Array.isArray(data103)){
if(data103.length < 1){
const err237 = {instancePath:instancePath+"/beam/fNumber",schemaPath:"#/properties/beam/properties/fNumber/anyOf/1/minItems",keyword:"minItems",params:{limit: 1},message:"must NOT have fewer than 1 items",schema:1,parentSchema:schema11.properties.beam.properties.fNumber.anyOf[1],data:data103};
if(vErrors === null){
vErrors = [err237];
}
else {
vErrors.push(err237);
}
errors++;
}
const len16 = data103.length;
for(let i11=0; i11<len16; i11++){
let data104 = data103[i11];
if((typeof data104 == "number") && (isFinite(data104))){
if(data104 <= 0 || isNaN(data104)){
const err238 = {instancePath:instancePath+"/beam/fNumber/" + i11,schemaPath:"#/properties/beam/properties/fNumber/anyOf/1/items/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.beam.properties.fNumber.anyOf[1].items,data:data104};
if(vErrors === null){
vErrors = [err238];
}
else {
vErrors.push(err238);
}
errors++;
}
}
else {
const err239 = {instancePath:instancePath+"/beam/fNumber/" + i11,schemaPath:"#/properties/beam/properties/fNumber/anyOf/1/items/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.fNumber.anyOf[1].items.type,parentSchema:schema11.properties.beam.properties.fNumber.anyOf[1].items,data:data104};
if(vErrors === null){
vErrors = [err239];
}
else {
vErrors.push(err239);
}
errors++;
}
}
}
else {
const err240 = {instancePath:instancePath+"/beam/fNumber",schemaPath:"#/properties/beam/properties/fNumber/anyOf/1/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.beam.properties.fNumber.anyOf[1].type,parentSchema:schema11.properties.beam.properties.fNumber.anyOf[1],data:data103};
if(vErrors === null){
vErrors = [err240];
}
else {
vErrors.push(err240);
}
errors++;
}
var _valid4 = _errs219 === errors;
valid55 = valid55 || _valid4;
}
if(!valid55){
const err241 = {instancePath:instancePath+"/beam/fNumber",schemaPath:"#/properties/beam/properties/fNumber/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema11.properties.beam.properties.fNumber.anyOf,parentSchema:schema11.properties.beam.properties.fNumber,data:data103};
if(vErrors === null){
vErrors = [err241];
}
else {
vErrors.push(err241);
}
errors++;
}
else {
errors = _errs216;
if(vErrors !== null){
if(_errs216){
vErrors.length = _errs216;
}
else {
vErrors = null;
}
}
}
}
if(data102.centralObstruction !== undefined){
let data105 = data102.centralObstruction;
if((typeof data105 == "number") && (isFinite(data105))){
if(data105 < 0 || isNaN(data105)){
const err242 = {instancePath:instancePath+"/beam/centralObstruction",schemaPath:"#/properties/beam/properties/centralObstruction/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.beam.properties.centralObstruction,data:data105};
if(vErrors === null){
vErrors = [err242];
}
else {
vErrors.push(err242);
}
errors++;
}
if(data105 >= 1 || isNaN(data105)){
const err243 = {instancePath:instancePath+"/beam/centralObstruction",schemaPath:"#/properties/beam/properties/centralObstruction/exclusiveMaximum",keyword:"exclusiveMaximum",params:{comparison: "<", limit: 1},message:"must be < 1",schema:1,parentSchema:schema11.properties.beam.properties.centralObstruction,data:data105};
if(vErrors === null){
vErrors = [err243];
}
else {
vErrors.push(err243);
}
errors++;
}
}
else {
const err244 = {instancePath:instancePath+"/beam/centralObstruction",schemaPath:"#/properties/beam/properties/centralObstruction/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.centralObstruction.type,parentSchema:schema11.properties.beam.properties.centralObstruction,data:data105};
if(vErrors === null){
vErrors = [err244];
}
else {
vErrors.push(err244);
}
errors++;
}
}
if(data102.effectiveIndex !== undefined){
let data106 = data102.effectiveIndex;
const _errs226 = errors;
let valid58 = false;
const _errs227 = errors;
if((typeof data106 == "number") && (isFinite(data106))){
if(data106 > 5 || isNaN(data106)){
const err245 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/0/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5},message:"must be <= 5",schema:5,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[0],data:data106};
if(vErrors === null){
vErrors = [err245];
}
else {
vErrors.push(err245);
}
errors++;
}
if(data106 < 1 || isNaN(data106)){
const err246 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/0/minimum",keyword:"minimum",params:{comparison: ">=", limit: 1},message:"must be >= 1",schema:1,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[0],data:data106};
if(vErrors === null){
vErrors = [err246];
}
else {
vErrors.push(err246);
}
errors++;
}
}
else {
const err247 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.effectiveIndex.anyOf[0].type,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[0],data:data106};
if(vErrors === null){
vErrors = [err247];
}
else {
vErrors.push(err247);
}
errors++;
}
var _valid5 = _errs227 === errors;
valid58 = valid58 || _valid5;
if(!valid58){
const _errs229 = errors;
if(Array.isArray(data106)){
if(data106.length > 2){
const err248 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1],data:data106};
if(vErrors === null){
vErrors = [err248];
}
else {
vErrors.push(err248);
}
errors++;
}
if(data106.length < 2){
const err249 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1],data:data106};
if(vErrors === null){
vErrors = [err249];
}
else {
vErrors.push(err249);
}
errors++;
}
const len17 = data106.length;
if(len17 > 0){
let data107 = data106[0];
if((typeof data107 == "number") && (isFinite(data107))){
if(data107 > 5 || isNaN(data107)){
const err250 = {instancePath:instancePath+"/beam/effectiveIndex/0",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/items/0/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5},message:"must be <= 5",schema:5,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[0],data:data107};
if(vErrors === null){
vErrors = [err250];
}
else {
vErrors.push(err250);
}
errors++;
}
if(data107 < 1 || isNaN(data107)){
const err251 = {instancePath:instancePath+"/beam/effectiveIndex/0",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/items/0/minimum",keyword:"minimum",params:{comparison: ">=", limit: 1},message:"must be >= 1",schema:1,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[0],data:data107};
if(vErrors === null){
vErrors = [err251];
}
else {
vErrors.push(err251);
}
errors++;
}
}
else {
const err252 = {instancePath:instancePath+"/beam/effectiveIndex/0",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[0].type,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[0],data:data107};
if(vErrors === null){
vErrors = [err252];
}
else {
vErrors.push(err252);
}
errors++;
}
}
if(len17 > 1){
let data108 = data106[1];
if((typeof data108 == "number") && (isFinite(data108))){
if(data108 > 5 || isNaN(data108)){
const err253 = {instancePath:instancePath+"/beam/effectiveIndex/1",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/items/1/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5},message:"must be <= 5",schema:5,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[1],data:data108};
if(vErrors === null){
vErrors = [err253];
}
else {
vErrors.push(err253);
}
errors++;
}
if(data108 < 1 || isNaN(data108)){
const err254 = {instancePath:instancePath+"/beam/effectiveIndex/1",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: 1},message:"must be >= 1",schema:1,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[1],data:data108};
if(vErrors === null){
vErrors = [err254];
}
else {
vErrors.push(err254);
}
errors++;
}
}
else {
const err255 = {instancePath:instancePath+"/beam/effectiveIndex/1",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[1].type,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].items[1],data:data108};
if(vErrors === null){
vErrors = [err255];
}
else {
vErrors.push(err255);
}
errors++;
}
}
}
else {
const err256 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf/1/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.beam.properties.effectiveIndex.anyOf[1].type,parentSchema:schema11.properties.beam.properties.effectiveIndex.anyOf[1],data:data106};
if(vErrors === null){
vErrors = [err256];
}
else {
vErrors.push(err256);
}
errors++;
}
var _valid5 = _errs229 === errors;
valid58 = valid58 || _valid5;
}
if(!valid58){
const err257 = {instancePath:instancePath+"/beam/effectiveIndex",schemaPath:"#/properties/beam/properties/effectiveIndex/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema11.properties.beam.properties.effectiveIndex.anyOf,parentSchema:schema11.properties.beam.properties.effectiveIndex,data:data106};
if(vErrors === null){
vErrors = [err257];
}
else {
vErrors.push(err257);
}
errors++;
}
else {
errors = _errs226;
if(vErrors !== null){
if(_errs226){
vErrors.length = _errs226;
}
else {
vErrors = null;
}
}
}
}
if(data102.pupil !== undefined){
let data109 = data102.pupil;
const _errs236 = errors;
let valid60 = false;
const _errs237 = errors;
if("uniform" !== data109){
const err258 = {instancePath:instancePath+"/beam/pupil",schemaPath:"#/properties/beam/properties/pupil/anyOf/0/const",keyword:"const",params:{allowedValue: "uniform"},message:"must be equal to constant",schema:"uniform",parentSchema:schema11.properties.beam.properties.pupil.anyOf[0],data:data109};
if(vErrors === null){
vErrors = [err258];
}
else {
vErrors.push(err258);
}
errors++;
}
var _valid6 = _errs237 === errors;
valid60 = valid60 || _valid6;
if(!valid60){
const _errs238 = errors;
if(data109 && typeof data109 == "object" && !Array.isArray(data109)){
if(data109.gaussianEdge === undefined){
const err259 = {instancePath:instancePath+"/beam/pupil",schemaPath:"#/properties/beam/properties/pupil/anyOf/1/required",keyword:"required",params:{missingProperty: "gaussianEdge"},message:"must have required property '"+"gaussianEdge"+"'",schema:schema11.properties.beam.properties.pupil.anyOf[1].required,parentSchema:schema11.properties.beam.properties.pupil.anyOf[1],data:data109};
if(vErrors === null){
vErrors = [err259];
}
else {
vErrors.push(err259);
}
errors++;
}
if(data109.gaussianEdge !== undefined){
let data110 = data109.gaussianEdge;
if((typeof data110 == "number") && (isFinite(data110))){
if(data110 > 1 || isNaN(data110)){
const err260 = {instancePath:instancePath+"/beam/pupil/gaussianEdge",schemaPath:"#/properties/beam/properties/pupil/anyOf/1/properties/gaussianEdge/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema11.properties.beam.properties.pupil.anyOf[1].properties.gaussianEdge,data:data110};
if(vErrors === null){
vErrors = [err260];
}
else {
vErrors.push(err260);
}
errors++;
}
if(data110 <= 0 || isNaN(data110)){
const err261 = {instancePath:instancePath+"/beam/pupil/gaussianEdge",schemaPath:"#/properties/beam/properties/pupil/anyOf/1/properties/gaussianEdge/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.beam.properties.pupil.anyOf[1].properties.gaussianEdge,data:data110};
if(vErrors === null){
vErrors = [err261];
}
else {
vErrors.push(err261);
}
errors++;
}
}
else {
const err262 = {instancePath:instancePath+"/beam/pupil/gaussianEdge",schemaPath:"#/properties/beam/properties/pupil/anyOf/1/properties/gaussianEdge/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.pupil.anyOf[1].properties.gaussianEdge.type,parentSchema:schema11.properties.beam.properties.pupil.anyOf[1].properties.gaussianEdge,data:data110};
if(vErrors === null){
vErrors = [err262];
}
else {
vErrors.push(err262);
}
errors++;
}
}
}
else {
const err263 = {instancePath:instancePath+"/beam/pupil",schemaPath:"#/properties/beam/properties/pupil/anyOf/1/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.beam.properties.pupil.anyOf[1].type,parentSchema:schema11.properties.beam.properties.pupil.anyOf[1],data:data109};
if(vErrors === null){
vErrors = [err263];
}
else {
vErrors.push(err263);
}
errors++;
}
var _valid6 = _errs238 === errors;
valid60 = valid60 || _valid6;
}
if(!valid60){
const err264 = {instancePath:instancePath+"/beam/pupil",schemaPath:"#/properties/beam/properties/pupil/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema11.properties.beam.properties.pupil.anyOf,parentSchema:schema11.properties.beam.properties.pupil,data:data109};
if(vErrors === null){
vErrors = [err264];
}
else {
vErrors.push(err264);
}
errors++;
}
else {
errors = _errs236;
if(vErrors !== null){
if(_errs236){
vErrors.length = _errs236;
}
else {
vErrors = null;
}
}
}
}
if(data102.reducer !== undefined){
let data111 = data102.reducer;
if(data111 && typeof data111 == "object" && !Array.isArray(data111)){
if(data111.factor === undefined){
const err265 = {instancePath:instancePath+"/beam/reducer",schemaPath:"#/properties/beam/properties/reducer/required",keyword:"required",params:{missingProperty: "factor"},message:"must have required property '"+"factor"+"'",schema:schema11.properties.beam.properties.reducer.required,parentSchema:schema11.properties.beam.properties.reducer,data:data111};
if(vErrors === null){
vErrors = [err265];
}
else {
vErrors.push(err265);
}
errors++;
}
if(data111.factor !== undefined){
let data112 = data111.factor;
if((typeof data112 == "number") && (isFinite(data112))){
if(data112 > 10 || isNaN(data112)){
const err266 = {instancePath:instancePath+"/beam/reducer/factor",schemaPath:"#/properties/beam/properties/reducer/properties/factor/maximum",keyword:"maximum",params:{comparison: "<=", limit: 10},message:"must be <= 10",schema:10,parentSchema:schema11.properties.beam.properties.reducer.properties.factor,data:data112};
if(vErrors === null){
vErrors = [err266];
}
else {
vErrors.push(err266);
}
errors++;
}
if(data112 <= 0 || isNaN(data112)){
const err267 = {instancePath:instancePath+"/beam/reducer/factor",schemaPath:"#/properties/beam/properties/reducer/properties/factor/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.beam.properties.reducer.properties.factor,data:data112};
if(vErrors === null){
vErrors = [err267];
}
else {
vErrors.push(err267);
}
errors++;
}
}
else {
const err268 = {instancePath:instancePath+"/beam/reducer/factor",schemaPath:"#/properties/beam/properties/reducer/properties/factor/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.reducer.properties.factor.type,parentSchema:schema11.properties.beam.properties.reducer.properties.factor,data:data112};
if(vErrors === null){
vErrors = [err268];
}
else {
vErrors.push(err268);
}
errors++;
}
}
if(data111.filterPlace !== undefined){
let data113 = data111.filterPlace;
if(!((data113 === "before") || (data113 === "behind"))){
const err269 = {instancePath:instancePath+"/beam/reducer/filterPlace",schemaPath:"#/properties/beam/properties/reducer/properties/filterPlace/enum",keyword:"enum",params:{allowedValues: schema11.properties.beam.properties.reducer.properties.filterPlace.enum},message:"must be equal to one of the allowed values",schema:schema11.properties.beam.properties.reducer.properties.filterPlace.enum,parentSchema:schema11.properties.beam.properties.reducer.properties.filterPlace,data:data113};
if(vErrors === null){
vErrors = [err269];
}
else {
vErrors.push(err269);
}
errors++;
}
}
}
else {
const err270 = {instancePath:instancePath+"/beam/reducer",schemaPath:"#/properties/beam/properties/reducer/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.beam.properties.reducer.type,parentSchema:schema11.properties.beam.properties.reducer,data:data111};
if(vErrors === null){
vErrors = [err270];
}
else {
vErrors.push(err270);
}
errors++;
}
}
if(data102.chiefRayDeg !== undefined){
let data114 = data102.chiefRayDeg;
if((typeof data114 == "number") && (isFinite(data114))){
if(data114 > 45 || isNaN(data114)){
const err271 = {instancePath:instancePath+"/beam/chiefRayDeg",schemaPath:"#/properties/beam/properties/chiefRayDeg/maximum",keyword:"maximum",params:{comparison: "<=", limit: 45},message:"must be <= 45",schema:45,parentSchema:schema11.properties.beam.properties.chiefRayDeg,data:data114};
if(vErrors === null){
vErrors = [err271];
}
else {
vErrors.push(err271);
}
errors++;
}
if(data114 < 0 || isNaN(data114)){
const err272 = {instancePath:instancePath+"/beam/chiefRayDeg",schemaPath:"#/properties/beam/properties/chiefRayDeg/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.beam.properties.chiefRayDeg,data:data114};
if(vErrors === null){
vErrors = [err272];
}
else {
vErrors.push(err272);
}
errors++;
}
}
else {
const err273 = {instancePath:instancePath+"/beam/chiefRayDeg",schemaPath:"#/properties/beam/properties/chiefRayDeg/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.chiefRayDeg.type,parentSchema:schema11.properties.beam.properties.chiefRayDeg,data:data114};
if(vErrors === null){
vErrors = [err273];
}
else {
vErrors.push(err273);
}
errors++;
}
}
if(data102.tiltDeg !== undefined){
let data115 = data102.tiltDeg;
if((typeof data115 == "number") && (isFinite(data115))){
if(data115 > 45 || isNaN(data115)){
const err274 = {instancePath:instancePath+"/beam/tiltDeg",schemaPath:"#/properties/beam/properties/tiltDeg/maximum",keyword:"maximum",params:{comparison: "<=", limit: 45},message:"must be <= 45",schema:45,parentSchema:schema11.properties.beam.properties.tiltDeg,data:data115};
if(vErrors === null){
vErrors = [err274];
}
else {
vErrors.push(err274);
}
errors++;
}
if(data115 < 0 || isNaN(data115)){
const err275 = {instancePath:instancePath+"/beam/tiltDeg",schemaPath:"#/properties/beam/properties/tiltDeg/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.beam.properties.tiltDeg,data:data115};
if(vErrors === null){
vErrors = [err275];
}
else {
vErrors.push(err275);
}
errors++;
}
}
else {
const err276 = {instancePath:instancePath+"/beam/tiltDeg",schemaPath:"#/properties/beam/properties/tiltDeg/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.tiltDeg.type,parentSchema:schema11.properties.beam.properties.tiltDeg,data:data115};
if(vErrors === null){
vErrors = [err276];
}
else {
vErrors.push(err276);
}
errors++;
}
}
if(data102.tiltDirectionDeg !== undefined){
let data116 = data102.tiltDirectionDeg;
if((typeof data116 == "number") && (isFinite(data116))){
if(data116 > 360 || isNaN(data116)){
const err277 = {instancePath:instancePath+"/beam/tiltDirectionDeg",schemaPath:"#/properties/beam/properties/tiltDirectionDeg/maximum",keyword:"maximum",params:{comparison: "<=", limit: 360},message:"must be <= 360",schema:360,parentSchema:schema11.properties.beam.properties.tiltDirectionDeg,data:data116};
if(vErrors === null){
vErrors = [err277];
}
else {
vErrors.push(err277);
}
errors++;
}
if(data116 < 0 || isNaN(data116)){
const err278 = {instancePath:instancePath+"/beam/tiltDirectionDeg",schemaPath:"#/properties/beam/properties/tiltDirectionDeg/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.beam.properties.tiltDirectionDeg,data:data116};
if(vErrors === null){
vErrors = [err278];
}
else {
vErrors.push(err278);
}
errors++;
}
}
else {
const err279 = {instancePath:instancePath+"/beam/tiltDirectionDeg",schemaPath:"#/properties/beam/properties/tiltDirectionDeg/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.tiltDirectionDeg.type,parentSchema:schema11.properties.beam.properties.tiltDirectionDeg,data:data116};
if(vErrors === null){
vErrors = [err279];
}
else {
vErrors.push(err279);
}
errors++;
}
}
if(data102.temperatureC !== undefined){
let data117 = data102.temperatureC;
if((typeof data117 == "number") && (isFinite(data117))){
if(data117 > 200 || isNaN(data117)){
const err280 = {instancePath:instancePath+"/beam/temperatureC",schemaPath:"#/properties/beam/properties/temperatureC/maximum",keyword:"maximum",params:{comparison: "<=", limit: 200},message:"must be <= 200",schema:200,parentSchema:schema11.properties.beam.properties.temperatureC,data:data117};
if(vErrors === null){
vErrors = [err280];
}
else {
vErrors.push(err280);
}
errors++;
}
if(data117 < -100 || isNaN(data117)){
const err281 = {instancePath:instancePath+"/beam/temperatureC",schemaPath:"#/properties/beam/properties/temperatureC/minimum",keyword:"minimum",params:{comparison: ">=", limit: -100},message:"must be >= -100",schema:-100,parentSchema:schema11.properties.beam.properties.temperatureC,data:data117};
if(vErrors === null){
vErrors = [err281];
}
else {
vErrors.push(err281);
}
errors++;
}
}
else {
const err282 = {instancePath:instancePath+"/beam/temperatureC",schemaPath:"#/properties/beam/properties/temperatureC/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.temperatureC.type,parentSchema:schema11.properties.beam.properties.temperatureC,data:data117};
if(vErrors === null){
vErrors = [err282];
}
else {
vErrors.push(err282);
}
errors++;
}
}
if(data102.temperatureNmPerK !== undefined){
let data118 = data102.temperatureNmPerK;
const _errs256 = errors;
let valid63 = false;
const _errs257 = errors;
if((typeof data118 == "number") && (isFinite(data118))){
if(data118 > 1 || isNaN(data118)){
const err283 = {instancePath:instancePath+"/beam/temperatureNmPerK",schemaPath:"#/properties/beam/properties/temperatureNmPerK/anyOf/0/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[0],data:data118};
if(vErrors === null){
vErrors = [err283];
}
else {
vErrors.push(err283);
}
errors++;
}
if(data118 < -1 || isNaN(data118)){
const err284 = {instancePath:instancePath+"/beam/temperatureNmPerK",schemaPath:"#/properties/beam/properties/temperatureNmPerK/anyOf/0/minimum",keyword:"minimum",params:{comparison: ">=", limit: -1},message:"must be >= -1",schema:-1,parentSchema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[0],data:data118};
if(vErrors === null){
vErrors = [err284];
}
else {
vErrors.push(err284);
}
errors++;
}
}
else {
const err285 = {instancePath:instancePath+"/beam/temperatureNmPerK",schemaPath:"#/properties/beam/properties/temperatureNmPerK/anyOf/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[0].type,parentSchema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[0],data:data118};
if(vErrors === null){
vErrors = [err285];
}
else {
vErrors.push(err285);
}
errors++;
}
var _valid7 = _errs257 === errors;
valid63 = valid63 || _valid7;
if(!valid63){
const _errs259 = errors;
if(Array.isArray(data118)){
if(data118.length > 2){
const err286 = {instancePath:instancePath+"/beam/temperatureNmPerK",schemaPath:"#/properties/beam/properties/temperatureNmPerK/anyOf/1/maxItems",keyword:"maxItems",params:{limit: 2},message:"must NOT have more than 2 items",schema:2,parentSchema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[1],data:data118};
if(vErrors === null){
vErrors = [err286];
}
else {
vErrors.push(err286);
}
errors++;
}
if(data118.length < 2){
const err287 = {instancePath:instancePath+"/beam/temperatureNmPerK",schemaPath:"#/properties/beam/properties/temperatureNmPerK/anyOf/1/minItems",keyword:"minItems",params:{limit: 2},message:"must NOT have fewer than 2 items",schema:2,parentSchema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[1],data:data118};
if(vErrors === null){
vErrors = [err287];
}
else {
vErrors.push(err287);
}
errors++;
}
const len18 = data118.length;
if(len18 > 0){
let data119 = data118[0];
if((typeof data119 == "number") && (isFinite(data119))){
if(data119 > 1 || isNaN(data119)){
const err288 = {instancePath:instancePath+"/beam/temperatureNmPerK/0",schemaPath:"#/properties/beam/properties/temperatureNmPerK/anyOf/1/items/0/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[1].items[0],data:data119};
if(vErrors === null){
vErrors = [err288];
}
else {
vErrors.push(err288);
}
errors++;
}
if(data119 < -1 || isNaN(data119)){
const err289 = {instancePath:instancePath+"/beam/temperatureNmPerK/0",schemaPath:"#/properties/beam/properties/temperatureNmPerK/anyOf/1/items/0/minimum",keyword:"minimum",params:{comparison: ">=", limit: -1},message:"must be >= -1",schema:-1,parentSchema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[1].items[0],data:data119};
if(vErrors === null){
vErrors = [err289];
}
else {
vErrors.push(err289);
}
errors++;
}
}
else {
const err290 = {instancePath:instancePath+"/beam/temperatureNmPerK/0",schemaPath:"#/properties/beam/properties/temperatureNmPerK/anyOf/1/items/0/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[1].items[0].type,parentSchema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[1].items[0],data:data119};
if(vErrors === null){
vErrors = [err290];
}
else {
vErrors.push(err290);
}
errors++;
}
}
if(len18 > 1){
let data120 = data118[1];
if((typeof data120 == "number") && (isFinite(data120))){
if(data120 > 1 || isNaN(data120)){
const err291 = {instancePath:instancePath+"/beam/temperatureNmPerK/1",schemaPath:"#/properties/beam/properties/temperatureNmPerK/anyOf/1/items/1/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1},message:"must be <= 1",schema:1,parentSchema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[1].items[1],data:data120};
if(vErrors === null){
vErrors = [err291];
}
else {
vErrors.push(err291);
}
errors++;
}
if(data120 < -1 || isNaN(data120)){
const err292 = {instancePath:instancePath+"/beam/temperatureNmPerK/1",schemaPath:"#/properties/beam/properties/temperatureNmPerK/anyOf/1/items/1/minimum",keyword:"minimum",params:{comparison: ">=", limit: -1},message:"must be >= -1",schema:-1,parentSchema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[1].items[1],data:data120};
if(vErrors === null){
vErrors = [err292];
}
else {
vErrors.push(err292);
}
errors++;
}
}
else {
const err293 = {instancePath:instancePath+"/beam/temperatureNmPerK/1",schemaPath:"#/properties/beam/properties/temperatureNmPerK/anyOf/1/items/1/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[1].items[1].type,parentSchema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[1].items[1],data:data120};
if(vErrors === null){
vErrors = [err293];
}
else {
vErrors.push(err293);
}
errors++;
}
}
}
else {
const err294 = {instancePath:instancePath+"/beam/temperatureNmPerK",schemaPath:"#/properties/beam/properties/temperatureNmPerK/anyOf/1/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[1].type,parentSchema:schema11.properties.beam.properties.temperatureNmPerK.anyOf[1],data:data118};
if(vErrors === null){
vErrors = [err294];
}
else {
vErrors.push(err294);
}
errors++;
}
var _valid7 = _errs259 === errors;
valid63 = valid63 || _valid7;
}
if(!valid63){
const err295 = {instancePath:instancePath+"/beam/temperatureNmPerK",schemaPath:"#/properties/beam/properties/temperatureNmPerK/anyOf",keyword:"anyOf",params:{},message:"must match a schema in anyOf",schema:schema11.properties.beam.properties.temperatureNmPerK.anyOf,parentSchema:schema11.properties.beam.properties.temperatureNmPerK,data:data118};
if(vErrors === null){
vErrors = [err295];
}
else {
vErrors.push(err295);
}
errors++;
}
else {
errors = _errs256;
if(vErrors !== null){
if(_errs256){
vErrors.length = _errs256;
}
else {
vErrors = null;
}
}
}
}
if(data102.share !== undefined){
let data121 = data102.share;
if((typeof data121 == "number") && (isFinite(data121))){
if(data121 >= 1 || isNaN(data121)){
const err296 = {instancePath:instancePath+"/beam/share",schemaPath:"#/properties/beam/properties/share/exclusiveMaximum",keyword:"exclusiveMaximum",params:{comparison: "<", limit: 1},message:"must be < 1",schema:1,parentSchema:schema11.properties.beam.properties.share,data:data121};
if(vErrors === null){
vErrors = [err296];
}
else {
vErrors.push(err296);
}
errors++;
}
if(data121 <= 0 || isNaN(data121)){
const err297 = {instancePath:instancePath+"/beam/share",schemaPath:"#/properties/beam/properties/share/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.beam.properties.share,data:data121};
if(vErrors === null){
vErrors = [err297];
}
else {
vErrors.push(err297);
}
errors++;
}
}
else {
const err298 = {instancePath:instancePath+"/beam/share",schemaPath:"#/properties/beam/properties/share/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.beam.properties.share.type,parentSchema:schema11.properties.beam.properties.share,data:data121};
if(vErrors === null){
vErrors = [err298];
}
else {
vErrors.push(err298);
}
errors++;
}
}
}
else {
const err299 = {instancePath:instancePath+"/beam",schemaPath:"#/properties/beam/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.beam.type,parentSchema:schema11.properties.beam,data:data102};
if(vErrors === null){
vErrors = [err299];
}
else {
vErrors.push(err299);
}
errors++;
}
}
if(data.stars !== undefined){
let data122 = data.stars;
if(Array.isArray(data122)){
const len19 = data122.length;
for(let i12=0; i12<len19; i12++){
let data123 = data122[i12];
if(data123 && typeof data123 == "object" && !Array.isArray(data123)){
if(data123.filter === undefined){
const err300 = {instancePath:instancePath+"/stars/" + i12,schemaPath:"#/properties/stars/items/required",keyword:"required",params:{missingProperty: "filter"},message:"must have required property '"+"filter"+"'",schema:schema11.properties.stars.items.required,parentSchema:schema11.properties.stars.items,data:data123};
if(vErrors === null){
vErrors = [err300];
}
else {
vErrors.push(err300);
}
errors++;
}
if(data123.file === undefined){
const err301 = {instancePath:instancePath+"/stars/" + i12,schemaPath:"#/properties/stars/items/required",keyword:"required",params:{missingProperty: "file"},message:"must have required property '"+"file"+"'",schema:schema11.properties.stars.items.required,parentSchema:schema11.properties.stars.items,data:data123};
if(vErrors === null){
vErrors = [err301];
}
else {
vErrors.push(err301);
}
errors++;
}
if(data123.pixelSizeUm === undefined){
const err302 = {instancePath:instancePath+"/stars/" + i12,schemaPath:"#/properties/stars/items/required",keyword:"required",params:{missingProperty: "pixelSizeUm"},message:"must have required property '"+"pixelSizeUm"+"'",schema:schema11.properties.stars.items.required,parentSchema:schema11.properties.stars.items,data:data123};
if(vErrors === null){
vErrors = [err302];
}
else {
vErrors.push(err302);
}
errors++;
}
if(data123.fNumber === undefined){
const err303 = {instancePath:instancePath+"/stars/" + i12,schemaPath:"#/properties/stars/items/required",keyword:"required",params:{missingProperty: "fNumber"},message:"must have required property '"+"fNumber"+"'",schema:schema11.properties.stars.items.required,parentSchema:schema11.properties.stars.items,data:data123};
if(vErrors === null){
vErrors = [err303];
}
else {
vErrors.push(err303);
}
errors++;
}
if(data123.saturationCounts === undefined){
const err304 = {instancePath:instancePath+"/stars/" + i12,schemaPath:"#/properties/stars/items/required",keyword:"required",params:{missingProperty: "saturationCounts"},message:"must have required property '"+"saturationCounts"+"'",schema:schema11.properties.stars.items.required,parentSchema:schema11.properties.stars.items,data:data123};
if(vErrors === null){
vErrors = [err304];
}
else {
vErrors.push(err304);
}
errors++;
}
if(data123.filter !== undefined){
let data124 = data123.filter;
if(typeof data124 === "string"){
if(func2(data124) < 1){
const err305 = {instancePath:instancePath+"/stars/" + i12+"/filter",schemaPath:"#/properties/stars/items/properties/filter/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.stars.items.properties.filter,data:data124};
if(vErrors === null){
vErrors = [err305];
}
else {
vErrors.push(err305);
}
errors++;
}
}
else {
const err306 = {instancePath:instancePath+"/stars/" + i12+"/filter",schemaPath:"#/properties/stars/items/properties/filter/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.stars.items.properties.filter.type,parentSchema:schema11.properties.stars.items.properties.filter,data:data124};
if(vErrors === null){
vErrors = [err306];
}
else {
vErrors.push(err306);
}
errors++;
}
}
if(data123.file !== undefined){
let data125 = data123.file;
if(typeof data125 === "string"){
if(func2(data125) < 1){
const err307 = {instancePath:instancePath+"/stars/" + i12+"/file",schemaPath:"#/properties/stars/items/properties/file/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.stars.items.properties.file,data:data125};
if(vErrors === null){
vErrors = [err307];
}
else {
vErrors.push(err307);
}
errors++;
}
}
else {
const err308 = {instancePath:instancePath+"/stars/" + i12+"/file",schemaPath:"#/properties/stars/items/properties/file/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.stars.items.properties.file.type,parentSchema:schema11.properties.stars.items.properties.file,data:data125};
if(vErrors === null){
vErrors = [err308];
}
else {
vErrors.push(err308);
}
errors++;
}
}
if(data123.star !== undefined){
let data126 = data123.star;
if(typeof data126 === "string"){
if(func2(data126) < 1){
const err309 = {instancePath:instancePath+"/stars/" + i12+"/star",schemaPath:"#/properties/stars/items/properties/star/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.stars.items.properties.star,data:data126};
if(vErrors === null){
vErrors = [err309];
}
else {
vErrors.push(err309);
}
errors++;
}
}
else {
const err310 = {instancePath:instancePath+"/stars/" + i12+"/star",schemaPath:"#/properties/stars/items/properties/star/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.stars.items.properties.star.type,parentSchema:schema11.properties.stars.items.properties.star,data:data126};
if(vErrors === null){
vErrors = [err310];
}
else {
vErrors.push(err310);
}
errors++;
}
}
if(data123.pixelSizeUm !== undefined){
let data127 = data123.pixelSizeUm;
if((typeof data127 == "number") && (isFinite(data127))){
if(data127 <= 0 || isNaN(data127)){
const err311 = {instancePath:instancePath+"/stars/" + i12+"/pixelSizeUm",schemaPath:"#/properties/stars/items/properties/pixelSizeUm/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.stars.items.properties.pixelSizeUm,data:data127};
if(vErrors === null){
vErrors = [err311];
}
else {
vErrors.push(err311);
}
errors++;
}
}
else {
const err312 = {instancePath:instancePath+"/stars/" + i12+"/pixelSizeUm",schemaPath:"#/properties/stars/items/properties/pixelSizeUm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.pixelSizeUm.type,parentSchema:schema11.properties.stars.items.properties.pixelSizeUm,data:data127};
if(vErrors === null){
vErrors = [err312];
}
else {
vErrors.push(err312);
}
errors++;
}
}
if(data123.fNumber !== undefined){
let data128 = data123.fNumber;
if((typeof data128 == "number") && (isFinite(data128))){
if(data128 <= 0 || isNaN(data128)){
const err313 = {instancePath:instancePath+"/stars/" + i12+"/fNumber",schemaPath:"#/properties/stars/items/properties/fNumber/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.stars.items.properties.fNumber,data:data128};
if(vErrors === null){
vErrors = [err313];
}
else {
vErrors.push(err313);
}
errors++;
}
}
else {
const err314 = {instancePath:instancePath+"/stars/" + i12+"/fNumber",schemaPath:"#/properties/stars/items/properties/fNumber/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.fNumber.type,parentSchema:schema11.properties.stars.items.properties.fNumber,data:data128};
if(vErrors === null){
vErrors = [err314];
}
else {
vErrors.push(err314);
}
errors++;
}
}
if(data123.fNumberUncertainty !== undefined){
let data129 = data123.fNumberUncertainty;
if((typeof data129 == "number") && (isFinite(data129))){
if(data129 < 0 || isNaN(data129)){
const err315 = {instancePath:instancePath+"/stars/" + i12+"/fNumberUncertainty",schemaPath:"#/properties/stars/items/properties/fNumberUncertainty/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.stars.items.properties.fNumberUncertainty,data:data129};
if(vErrors === null){
vErrors = [err315];
}
else {
vErrors.push(err315);
}
errors++;
}
}
else {
const err316 = {instancePath:instancePath+"/stars/" + i12+"/fNumberUncertainty",schemaPath:"#/properties/stars/items/properties/fNumberUncertainty/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.fNumberUncertainty.type,parentSchema:schema11.properties.stars.items.properties.fNumberUncertainty,data:data129};
if(vErrors === null){
vErrors = [err316];
}
else {
vErrors.push(err316);
}
errors++;
}
}
if(data123.saturationCounts !== undefined){
let data130 = data123.saturationCounts;
if((typeof data130 == "number") && (isFinite(data130))){
if(data130 <= 0 || isNaN(data130)){
const err317 = {instancePath:instancePath+"/stars/" + i12+"/saturationCounts",schemaPath:"#/properties/stars/items/properties/saturationCounts/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.stars.items.properties.saturationCounts,data:data130};
if(vErrors === null){
vErrors = [err317];
}
else {
vErrors.push(err317);
}
errors++;
}
}
else {
const err318 = {instancePath:instancePath+"/stars/" + i12+"/saturationCounts",schemaPath:"#/properties/stars/items/properties/saturationCounts/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.saturationCounts.type,parentSchema:schema11.properties.stars.items.properties.saturationCounts,data:data130};
if(vErrors === null){
vErrors = [err318];
}
else {
vErrors.push(err318);
}
errors++;
}
}
if(data123.exposureS !== undefined){
let data131 = data123.exposureS;
if((typeof data131 == "number") && (isFinite(data131))){
if(data131 <= 0 || isNaN(data131)){
const err319 = {instancePath:instancePath+"/stars/" + i12+"/exposureS",schemaPath:"#/properties/stars/items/properties/exposureS/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.stars.items.properties.exposureS,data:data131};
if(vErrors === null){
vErrors = [err319];
}
else {
vErrors.push(err319);
}
errors++;
}
}
else {
const err320 = {instancePath:instancePath+"/stars/" + i12+"/exposureS",schemaPath:"#/properties/stars/items/properties/exposureS/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.exposureS.type,parentSchema:schema11.properties.stars.items.properties.exposureS,data:data131};
if(vErrors === null){
vErrors = [err320];
}
else {
vErrors.push(err320);
}
errors++;
}
}
if(data123.focalLengthMm !== undefined){
let data132 = data123.focalLengthMm;
if((typeof data132 == "number") && (isFinite(data132))){
if(data132 <= 0 || isNaN(data132)){
const err321 = {instancePath:instancePath+"/stars/" + i12+"/focalLengthMm",schemaPath:"#/properties/stars/items/properties/focalLengthMm/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.stars.items.properties.focalLengthMm,data:data132};
if(vErrors === null){
vErrors = [err321];
}
else {
vErrors.push(err321);
}
errors++;
}
}
else {
const err322 = {instancePath:instancePath+"/stars/" + i12+"/focalLengthMm",schemaPath:"#/properties/stars/items/properties/focalLengthMm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.focalLengthMm.type,parentSchema:schema11.properties.stars.items.properties.focalLengthMm,data:data132};
if(vErrors === null){
vErrors = [err322];
}
else {
vErrors.push(err322);
}
errors++;
}
}
if(data123.obstruction !== undefined){
let data133 = data123.obstruction;
if((typeof data133 == "number") && (isFinite(data133))){
if(data133 < 0 || isNaN(data133)){
const err323 = {instancePath:instancePath+"/stars/" + i12+"/obstruction",schemaPath:"#/properties/stars/items/properties/obstruction/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.stars.items.properties.obstruction,data:data133};
if(vErrors === null){
vErrors = [err323];
}
else {
vErrors.push(err323);
}
errors++;
}
if(data133 >= 1 || isNaN(data133)){
const err324 = {instancePath:instancePath+"/stars/" + i12+"/obstruction",schemaPath:"#/properties/stars/items/properties/obstruction/exclusiveMaximum",keyword:"exclusiveMaximum",params:{comparison: "<", limit: 1},message:"must be < 1",schema:1,parentSchema:schema11.properties.stars.items.properties.obstruction,data:data133};
if(vErrors === null){
vErrors = [err324];
}
else {
vErrors.push(err324);
}
errors++;
}
}
else {
const err325 = {instancePath:instancePath+"/stars/" + i12+"/obstruction",schemaPath:"#/properties/stars/items/properties/obstruction/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.obstruction.type,parentSchema:schema11.properties.stars.items.properties.obstruction,data:data133};
if(vErrors === null){
vErrors = [err325];
}
else {
vErrors.push(err325);
}
errors++;
}
}
if(data123.near !== undefined){
let data134 = data123.near;
if(data134 && typeof data134 == "object" && !Array.isArray(data134)){
if(data134.x === undefined){
const err326 = {instancePath:instancePath+"/stars/" + i12+"/near",schemaPath:"#/properties/stars/items/properties/near/required",keyword:"required",params:{missingProperty: "x"},message:"must have required property '"+"x"+"'",schema:schema11.properties.stars.items.properties.near.required,parentSchema:schema11.properties.stars.items.properties.near,data:data134};
if(vErrors === null){
vErrors = [err326];
}
else {
vErrors.push(err326);
}
errors++;
}
if(data134.y === undefined){
const err327 = {instancePath:instancePath+"/stars/" + i12+"/near",schemaPath:"#/properties/stars/items/properties/near/required",keyword:"required",params:{missingProperty: "y"},message:"must have required property '"+"y"+"'",schema:schema11.properties.stars.items.properties.near.required,parentSchema:schema11.properties.stars.items.properties.near,data:data134};
if(vErrors === null){
vErrors = [err327];
}
else {
vErrors.push(err327);
}
errors++;
}
if(data134.x !== undefined){
let data135 = data134.x;
if((typeof data135 == "number") && (isFinite(data135))){
if(data135 > 1000000 || isNaN(data135)){
const err328 = {instancePath:instancePath+"/stars/" + i12+"/near/x",schemaPath:"#/properties/stars/items/properties/near/properties/x/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1000000},message:"must be <= 1000000",schema:1000000,parentSchema:schema11.properties.stars.items.properties.near.properties.x,data:data135};
if(vErrors === null){
vErrors = [err328];
}
else {
vErrors.push(err328);
}
errors++;
}
if(data135 < 1 || isNaN(data135)){
const err329 = {instancePath:instancePath+"/stars/" + i12+"/near/x",schemaPath:"#/properties/stars/items/properties/near/properties/x/minimum",keyword:"minimum",params:{comparison: ">=", limit: 1},message:"must be >= 1",schema:1,parentSchema:schema11.properties.stars.items.properties.near.properties.x,data:data135};
if(vErrors === null){
vErrors = [err329];
}
else {
vErrors.push(err329);
}
errors++;
}
}
else {
const err330 = {instancePath:instancePath+"/stars/" + i12+"/near/x",schemaPath:"#/properties/stars/items/properties/near/properties/x/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.near.properties.x.type,parentSchema:schema11.properties.stars.items.properties.near.properties.x,data:data135};
if(vErrors === null){
vErrors = [err330];
}
else {
vErrors.push(err330);
}
errors++;
}
}
if(data134.y !== undefined){
let data136 = data134.y;
if((typeof data136 == "number") && (isFinite(data136))){
if(data136 > 1000000 || isNaN(data136)){
const err331 = {instancePath:instancePath+"/stars/" + i12+"/near/y",schemaPath:"#/properties/stars/items/properties/near/properties/y/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1000000},message:"must be <= 1000000",schema:1000000,parentSchema:schema11.properties.stars.items.properties.near.properties.y,data:data136};
if(vErrors === null){
vErrors = [err331];
}
else {
vErrors.push(err331);
}
errors++;
}
if(data136 < 1 || isNaN(data136)){
const err332 = {instancePath:instancePath+"/stars/" + i12+"/near/y",schemaPath:"#/properties/stars/items/properties/near/properties/y/minimum",keyword:"minimum",params:{comparison: ">=", limit: 1},message:"must be >= 1",schema:1,parentSchema:schema11.properties.stars.items.properties.near.properties.y,data:data136};
if(vErrors === null){
vErrors = [err332];
}
else {
vErrors.push(err332);
}
errors++;
}
}
else {
const err333 = {instancePath:instancePath+"/stars/" + i12+"/near/y",schemaPath:"#/properties/stars/items/properties/near/properties/y/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.near.properties.y.type,parentSchema:schema11.properties.stars.items.properties.near.properties.y,data:data136};
if(vErrors === null){
vErrors = [err333];
}
else {
vErrors.push(err333);
}
errors++;
}
}
}
else {
const err334 = {instancePath:instancePath+"/stars/" + i12+"/near",schemaPath:"#/properties/stars/items/properties/near/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.stars.items.properties.near.type,parentSchema:schema11.properties.stars.items.properties.near,data:data134};
if(vErrors === null){
vErrors = [err334];
}
else {
vErrors.push(err334);
}
errors++;
}
}
if(data123.shortFile !== undefined){
let data137 = data123.shortFile;
if(typeof data137 === "string"){
if(func2(data137) < 1){
const err335 = {instancePath:instancePath+"/stars/" + i12+"/shortFile",schemaPath:"#/properties/stars/items/properties/shortFile/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.stars.items.properties.shortFile,data:data137};
if(vErrors === null){
vErrors = [err335];
}
else {
vErrors.push(err335);
}
errors++;
}
}
else {
const err336 = {instancePath:instancePath+"/stars/" + i12+"/shortFile",schemaPath:"#/properties/stars/items/properties/shortFile/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.stars.items.properties.shortFile.type,parentSchema:schema11.properties.stars.items.properties.shortFile,data:data137};
if(vErrors === null){
vErrors = [err336];
}
else {
vErrors.push(err336);
}
errors++;
}
}
if(data123.shortExposureS !== undefined){
let data138 = data123.shortExposureS;
if((typeof data138 == "number") && (isFinite(data138))){
if(data138 <= 0 || isNaN(data138)){
const err337 = {instancePath:instancePath+"/stars/" + i12+"/shortExposureS",schemaPath:"#/properties/stars/items/properties/shortExposureS/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.stars.items.properties.shortExposureS,data:data138};
if(vErrors === null){
vErrors = [err337];
}
else {
vErrors.push(err337);
}
errors++;
}
}
else {
const err338 = {instancePath:instancePath+"/stars/" + i12+"/shortExposureS",schemaPath:"#/properties/stars/items/properties/shortExposureS/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.shortExposureS.type,parentSchema:schema11.properties.stars.items.properties.shortExposureS,data:data138};
if(vErrors === null){
vErrors = [err338];
}
else {
vErrors.push(err338);
}
errors++;
}
}
if(data123.magnitude !== undefined){
let data139 = data123.magnitude;
if((typeof data139 == "number") && (isFinite(data139))){
if(data139 > 50 || isNaN(data139)){
const err339 = {instancePath:instancePath+"/stars/" + i12+"/magnitude",schemaPath:"#/properties/stars/items/properties/magnitude/maximum",keyword:"maximum",params:{comparison: "<=", limit: 50},message:"must be <= 50",schema:50,parentSchema:schema11.properties.stars.items.properties.magnitude,data:data139};
if(vErrors === null){
vErrors = [err339];
}
else {
vErrors.push(err339);
}
errors++;
}
if(data139 < -50 || isNaN(data139)){
const err340 = {instancePath:instancePath+"/stars/" + i12+"/magnitude",schemaPath:"#/properties/stars/items/properties/magnitude/minimum",keyword:"minimum",params:{comparison: ">=", limit: -50},message:"must be >= -50",schema:-50,parentSchema:schema11.properties.stars.items.properties.magnitude,data:data139};
if(vErrors === null){
vErrors = [err340];
}
else {
vErrors.push(err340);
}
errors++;
}
}
else {
const err341 = {instancePath:instancePath+"/stars/" + i12+"/magnitude",schemaPath:"#/properties/stars/items/properties/magnitude/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.magnitude.type,parentSchema:schema11.properties.stars.items.properties.magnitude,data:data139};
if(vErrors === null){
vErrors = [err341];
}
else {
vErrors.push(err341);
}
errors++;
}
}
if(data123.zeroPoint !== undefined){
let data140 = data123.zeroPoint;
if((typeof data140 == "number") && (isFinite(data140))){
if(data140 > 80 || isNaN(data140)){
const err342 = {instancePath:instancePath+"/stars/" + i12+"/zeroPoint",schemaPath:"#/properties/stars/items/properties/zeroPoint/maximum",keyword:"maximum",params:{comparison: "<=", limit: 80},message:"must be <= 80",schema:80,parentSchema:schema11.properties.stars.items.properties.zeroPoint,data:data140};
if(vErrors === null){
vErrors = [err342];
}
else {
vErrors.push(err342);
}
errors++;
}
if(data140 < -50 || isNaN(data140)){
const err343 = {instancePath:instancePath+"/stars/" + i12+"/zeroPoint",schemaPath:"#/properties/stars/items/properties/zeroPoint/minimum",keyword:"minimum",params:{comparison: ">=", limit: -50},message:"must be >= -50",schema:-50,parentSchema:schema11.properties.stars.items.properties.zeroPoint,data:data140};
if(vErrors === null){
vErrors = [err343];
}
else {
vErrors.push(err343);
}
errors++;
}
}
else {
const err344 = {instancePath:instancePath+"/stars/" + i12+"/zeroPoint",schemaPath:"#/properties/stars/items/properties/zeroPoint/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.zeroPoint.type,parentSchema:schema11.properties.stars.items.properties.zeroPoint,data:data140};
if(vErrors === null){
vErrors = [err344];
}
else {
vErrors.push(err344);
}
errors++;
}
}
if(data123.magnitudeUncertainty !== undefined){
let data141 = data123.magnitudeUncertainty;
if((typeof data141 == "number") && (isFinite(data141))){
if(data141 > 5 || isNaN(data141)){
const err345 = {instancePath:instancePath+"/stars/" + i12+"/magnitudeUncertainty",schemaPath:"#/properties/stars/items/properties/magnitudeUncertainty/maximum",keyword:"maximum",params:{comparison: "<=", limit: 5},message:"must be <= 5",schema:5,parentSchema:schema11.properties.stars.items.properties.magnitudeUncertainty,data:data141};
if(vErrors === null){
vErrors = [err345];
}
else {
vErrors.push(err345);
}
errors++;
}
if(data141 < 0 || isNaN(data141)){
const err346 = {instancePath:instancePath+"/stars/" + i12+"/magnitudeUncertainty",schemaPath:"#/properties/stars/items/properties/magnitudeUncertainty/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.stars.items.properties.magnitudeUncertainty,data:data141};
if(vErrors === null){
vErrors = [err346];
}
else {
vErrors.push(err346);
}
errors++;
}
}
else {
const err347 = {instancePath:instancePath+"/stars/" + i12+"/magnitudeUncertainty",schemaPath:"#/properties/stars/items/properties/magnitudeUncertainty/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.magnitudeUncertainty.type,parentSchema:schema11.properties.stars.items.properties.magnitudeUncertainty,data:data141};
if(vErrors === null){
vErrors = [err347];
}
else {
vErrors.push(err347);
}
errors++;
}
}
if(data123.referenceFile !== undefined){
let data142 = data123.referenceFile;
if(typeof data142 === "string"){
if(func2(data142) < 1){
const err348 = {instancePath:instancePath+"/stars/" + i12+"/referenceFile",schemaPath:"#/properties/stars/items/properties/referenceFile/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.stars.items.properties.referenceFile,data:data142};
if(vErrors === null){
vErrors = [err348];
}
else {
vErrors.push(err348);
}
errors++;
}
}
else {
const err349 = {instancePath:instancePath+"/stars/" + i12+"/referenceFile",schemaPath:"#/properties/stars/items/properties/referenceFile/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.stars.items.properties.referenceFile.type,parentSchema:schema11.properties.stars.items.properties.referenceFile,data:data142};
if(vErrors === null){
vErrors = [err349];
}
else {
vErrors.push(err349);
}
errors++;
}
}
if(data123.layers !== undefined){
let data143 = data123.layers;
if(Array.isArray(data143)){
if(data143.length > 40){
const err350 = {instancePath:instancePath+"/stars/" + i12+"/layers",schemaPath:"#/properties/stars/items/properties/layers/maxItems",keyword:"maxItems",params:{limit: 40},message:"must NOT have more than 40 items",schema:40,parentSchema:schema11.properties.stars.items.properties.layers,data:data143};
if(vErrors === null){
vErrors = [err350];
}
else {
vErrors.push(err350);
}
errors++;
}
if(data143.length < 1){
const err351 = {instancePath:instancePath+"/stars/" + i12+"/layers",schemaPath:"#/properties/stars/items/properties/layers/minItems",keyword:"minItems",params:{limit: 1},message:"must NOT have fewer than 1 items",schema:1,parentSchema:schema11.properties.stars.items.properties.layers,data:data143};
if(vErrors === null){
vErrors = [err351];
}
else {
vErrors.push(err351);
}
errors++;
}
const len20 = data143.length;
for(let i13=0; i13<len20; i13++){
let data144 = data143[i13];
if(data144 && typeof data144 == "object" && !Array.isArray(data144)){
if(data144.name === undefined){
const err352 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13,schemaPath:"#/properties/stars/items/properties/layers/items/required",keyword:"required",params:{missingProperty: "name"},message:"must have required property '"+"name"+"'",schema:schema11.properties.stars.items.properties.layers.items.required,parentSchema:schema11.properties.stars.items.properties.layers.items,data:data144};
if(vErrors === null){
vErrors = [err352];
}
else {
vErrors.push(err352);
}
errors++;
}
if(data144.thicknessMm === undefined){
const err353 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13,schemaPath:"#/properties/stars/items/properties/layers/items/required",keyword:"required",params:{missingProperty: "thicknessMm"},message:"must have required property '"+"thicknessMm"+"'",schema:schema11.properties.stars.items.properties.layers.items.required,parentSchema:schema11.properties.stars.items.properties.layers.items,data:data144};
if(vErrors === null){
vErrors = [err353];
}
else {
vErrors.push(err353);
}
errors++;
}
if(data144.name !== undefined){
let data145 = data144.name;
if(typeof data145 === "string"){
if(func2(data145) < 1){
const err354 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13+"/name",schemaPath:"#/properties/stars/items/properties/layers/items/properties/name/minLength",keyword:"minLength",params:{limit: 1},message:"must NOT have fewer than 1 characters",schema:1,parentSchema:schema11.properties.stars.items.properties.layers.items.properties.name,data:data145};
if(vErrors === null){
vErrors = [err354];
}
else {
vErrors.push(err354);
}
errors++;
}
}
else {
const err355 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13+"/name",schemaPath:"#/properties/stars/items/properties/layers/items/properties/name/type",keyword:"type",params:{type: "string"},message:"must be string",schema:schema11.properties.stars.items.properties.layers.items.properties.name.type,parentSchema:schema11.properties.stars.items.properties.layers.items.properties.name,data:data145};
if(vErrors === null){
vErrors = [err355];
}
else {
vErrors.push(err355);
}
errors++;
}
}
if(data144.thicknessMm !== undefined){
let data146 = data144.thicknessMm;
if((typeof data146 == "number") && (isFinite(data146))){
if(data146 >= 10000 || isNaN(data146)){
const err356 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13+"/thicknessMm",schemaPath:"#/properties/stars/items/properties/layers/items/properties/thicknessMm/exclusiveMaximum",keyword:"exclusiveMaximum",params:{comparison: "<", limit: 10000},message:"must be < 10000",schema:10000,parentSchema:schema11.properties.stars.items.properties.layers.items.properties.thicknessMm,data:data146};
if(vErrors === null){
vErrors = [err356];
}
else {
vErrors.push(err356);
}
errors++;
}
if(data146 <= 0 || isNaN(data146)){
const err357 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13+"/thicknessMm",schemaPath:"#/properties/stars/items/properties/layers/items/properties/thicknessMm/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.stars.items.properties.layers.items.properties.thicknessMm,data:data146};
if(vErrors === null){
vErrors = [err357];
}
else {
vErrors.push(err357);
}
errors++;
}
}
else {
const err358 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13+"/thicknessMm",schemaPath:"#/properties/stars/items/properties/layers/items/properties/thicknessMm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.layers.items.properties.thicknessMm.type,parentSchema:schema11.properties.stars.items.properties.layers.items.properties.thicknessMm,data:data146};
if(vErrors === null){
vErrors = [err358];
}
else {
vErrors.push(err358);
}
errors++;
}
}
if(data144.uncertaintyMm !== undefined){
let data147 = data144.uncertaintyMm;
if((typeof data147 == "number") && (isFinite(data147))){
if(data147 > 1000 || isNaN(data147)){
const err359 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13+"/uncertaintyMm",schemaPath:"#/properties/stars/items/properties/layers/items/properties/uncertaintyMm/maximum",keyword:"maximum",params:{comparison: "<=", limit: 1000},message:"must be <= 1000",schema:1000,parentSchema:schema11.properties.stars.items.properties.layers.items.properties.uncertaintyMm,data:data147};
if(vErrors === null){
vErrors = [err359];
}
else {
vErrors.push(err359);
}
errors++;
}
if(data147 < 0 || isNaN(data147)){
const err360 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13+"/uncertaintyMm",schemaPath:"#/properties/stars/items/properties/layers/items/properties/uncertaintyMm/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema11.properties.stars.items.properties.layers.items.properties.uncertaintyMm,data:data147};
if(vErrors === null){
vErrors = [err360];
}
else {
vErrors.push(err360);
}
errors++;
}
}
else {
const err361 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13+"/uncertaintyMm",schemaPath:"#/properties/stars/items/properties/layers/items/properties/uncertaintyMm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.layers.items.properties.uncertaintyMm.type,parentSchema:schema11.properties.stars.items.properties.layers.items.properties.uncertaintyMm,data:data147};
if(vErrors === null){
vErrors = [err361];
}
else {
vErrors.push(err361);
}
errors++;
}
}
if(data144.index !== undefined){
let data148 = data144.index;
if((typeof data148 == "number") && (isFinite(data148))){
if(data148 < 1 || isNaN(data148)){
const err362 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13+"/index",schemaPath:"#/properties/stars/items/properties/layers/items/properties/index/minimum",keyword:"minimum",params:{comparison: ">=", limit: 1},message:"must be >= 1",schema:1,parentSchema:schema11.properties.stars.items.properties.layers.items.properties.index,data:data148};
if(vErrors === null){
vErrors = [err362];
}
else {
vErrors.push(err362);
}
errors++;
}
if(data148 >= 4 || isNaN(data148)){
const err363 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13+"/index",schemaPath:"#/properties/stars/items/properties/layers/items/properties/index/exclusiveMaximum",keyword:"exclusiveMaximum",params:{comparison: "<", limit: 4},message:"must be < 4",schema:4,parentSchema:schema11.properties.stars.items.properties.layers.items.properties.index,data:data148};
if(vErrors === null){
vErrors = [err363];
}
else {
vErrors.push(err363);
}
errors++;
}
}
else {
const err364 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13+"/index",schemaPath:"#/properties/stars/items/properties/layers/items/properties/index/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.layers.items.properties.index.type,parentSchema:schema11.properties.stars.items.properties.layers.items.properties.index,data:data148};
if(vErrors === null){
vErrors = [err364];
}
else {
vErrors.push(err364);
}
errors++;
}
}
}
else {
const err365 = {instancePath:instancePath+"/stars/" + i12+"/layers/" + i13,schemaPath:"#/properties/stars/items/properties/layers/items/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.stars.items.properties.layers.items.type,parentSchema:schema11.properties.stars.items.properties.layers.items,data:data144};
if(vErrors === null){
vErrors = [err365];
}
else {
vErrors.push(err365);
}
errors++;
}
}
}
else {
const err366 = {instancePath:instancePath+"/stars/" + i12+"/layers",schemaPath:"#/properties/stars/items/properties/layers/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.stars.items.properties.layers.type,parentSchema:schema11.properties.stars.items.properties.layers,data:data143};
if(vErrors === null){
vErrors = [err366];
}
else {
vErrors.push(err366);
}
errors++;
}
}
if(data123.limit !== undefined){
let data149 = data123.limit;
const _errs325 = errors;
let valid74 = true;
const _errs326 = errors;
if(data149 && typeof data149 == "object" && !Array.isArray(data149)){
let missing2;
if((data149.kind === undefined) && (missing2 = "kind")){
const err367 = {};
if(vErrors === null){
vErrors = [err367];
}
else {
vErrors.push(err367);
}
errors++;
}
else {
if(data149.kind !== undefined){
if("share" !== data149.kind){
const err368 = {};
if(vErrors === null){
vErrors = [err368];
}
else {
vErrors.push(err368);
}
errors++;
}
}
}
}
var _valid8 = _errs326 === errors;
errors = _errs325;
if(vErrors !== null){
if(_errs325){
vErrors.length = _errs325;
}
else {
vErrors = null;
}
}
if(_valid8){
const _errs328 = errors;
if(data149 && typeof data149 == "object" && !Array.isArray(data149)){
if(data149.atMost === undefined){
const err369 = {instancePath:instancePath+"/stars/" + i12+"/limit",schemaPath:"#/definitions/haloLimit/allOf/0/then/required",keyword:"required",params:{missingProperty: "atMost"},message:"must have required property '"+"atMost"+"'",schema:schema25.allOf[0].then.required,parentSchema:schema25.allOf[0].then,data:data149};
if(vErrors === null){
vErrors = [err369];
}
else {
vErrors.push(err369);
}
errors++;
}
}
var _valid8 = _errs328 === errors;
valid74 = _valid8;
}
if(!valid74){
const err370 = {instancePath:instancePath+"/stars/" + i12+"/limit",schemaPath:"#/definitions/haloLimit/allOf/0/if",keyword:"if",params:{failingKeyword: "then"},message:"must match \"then\" schema",schema:schema25.allOf[0].if,parentSchema:schema25.allOf[0],data:data149};
if(vErrors === null){
vErrors = [err370];
}
else {
vErrors.push(err370);
}
errors++;
}
const _errs330 = errors;
let valid76 = true;
const _errs331 = errors;
if(data149 && typeof data149 == "object" && !Array.isArray(data149)){
let missing3;
if((data149.kind === undefined) && (missing3 = "kind")){
const err371 = {};
if(vErrors === null){
vErrors = [err371];
}
else {
vErrors.push(err371);
}
errors++;
}
else {
if(data149.kind !== undefined){
if("surface" !== data149.kind){
const err372 = {};
if(vErrors === null){
vErrors = [err372];
}
else {
vErrors.push(err372);
}
errors++;
}
}
}
}
var _valid9 = _errs331 === errors;
errors = _errs330;
if(vErrors !== null){
if(_errs330){
vErrors.length = _errs330;
}
else {
vErrors = null;
}
}
if(_valid9){
const _errs333 = errors;
if(data149 && typeof data149 == "object" && !Array.isArray(data149)){
if(data149.atLeast === undefined){
const err373 = {instancePath:instancePath+"/stars/" + i12+"/limit",schemaPath:"#/definitions/haloLimit/allOf/1/then/required",keyword:"required",params:{missingProperty: "atLeast"},message:"must have required property '"+"atLeast"+"'",schema:schema25.allOf[1].then.required,parentSchema:schema25.allOf[1].then,data:data149};
if(vErrors === null){
vErrors = [err373];
}
else {
vErrors.push(err373);
}
errors++;
}
}
var _valid9 = _errs333 === errors;
valid76 = _valid9;
}
if(!valid76){
const err374 = {instancePath:instancePath+"/stars/" + i12+"/limit",schemaPath:"#/definitions/haloLimit/allOf/1/if",keyword:"if",params:{failingKeyword: "then"},message:"must match \"then\" schema",schema:schema25.allOf[1].if,parentSchema:schema25.allOf[1],data:data149};
if(vErrors === null){
vErrors = [err374];
}
else {
vErrors.push(err374);
}
errors++;
}
const _errs335 = errors;
let valid78 = true;
const _errs336 = errors;
if(data149 && typeof data149 == "object" && !Array.isArray(data149)){
let missing4;
if((data149.kind === undefined) && (missing4 = "kind")){
const err375 = {};
if(vErrors === null){
vErrors = [err375];
}
else {
vErrors.push(err375);
}
errors++;
}
else {
if(data149.kind !== undefined){
if("noise" !== data149.kind){
const err376 = {};
if(vErrors === null){
vErrors = [err376];
}
else {
vErrors.push(err376);
}
errors++;
}
}
}
}
var _valid10 = _errs336 === errors;
errors = _errs335;
if(vErrors !== null){
if(_errs335){
vErrors.length = _errs335;
}
else {
vErrors = null;
}
}
if(_valid10){
const _errs338 = errors;
if(data149 && typeof data149 == "object" && !Array.isArray(data149)){
if(data149.hours === undefined){
const err377 = {instancePath:instancePath+"/stars/" + i12+"/limit",schemaPath:"#/definitions/haloLimit/allOf/2/then/required",keyword:"required",params:{missingProperty: "hours"},message:"must have required property '"+"hours"+"'",schema:schema25.allOf[2].then.required,parentSchema:schema25.allOf[2].then,data:data149};
if(vErrors === null){
vErrors = [err377];
}
else {
vErrors.push(err377);
}
errors++;
}
if(data149.electronsPerCount === undefined){
const err378 = {instancePath:instancePath+"/stars/" + i12+"/limit",schemaPath:"#/definitions/haloLimit/allOf/2/then/required",keyword:"required",params:{missingProperty: "electronsPerCount"},message:"must have required property '"+"electronsPerCount"+"'",schema:schema25.allOf[2].then.required,parentSchema:schema25.allOf[2].then,data:data149};
if(vErrors === null){
vErrors = [err378];
}
else {
vErrors.push(err378);
}
errors++;
}
}
var _valid10 = _errs338 === errors;
valid78 = _valid10;
}
if(!valid78){
const err379 = {instancePath:instancePath+"/stars/" + i12+"/limit",schemaPath:"#/definitions/haloLimit/allOf/2/if",keyword:"if",params:{failingKeyword: "then"},message:"must match \"then\" schema",schema:schema25.allOf[2].if,parentSchema:schema25.allOf[2],data:data149};
if(vErrors === null){
vErrors = [err379];
}
else {
vErrors.push(err379);
}
errors++;
}
if(data149 && typeof data149 == "object" && !Array.isArray(data149)){
if(data149.kind === undefined){
const err380 = {instancePath:instancePath+"/stars/" + i12+"/limit",schemaPath:"#/definitions/haloLimit/required",keyword:"required",params:{missingProperty: "kind"},message:"must have required property '"+"kind"+"'",schema:schema25.required,parentSchema:schema25,data:data149};
if(vErrors === null){
vErrors = [err380];
}
else {
vErrors.push(err380);
}
errors++;
}
if(data149.kind !== undefined){
let data153 = data149.kind;
if(!(((data153 === "share") || (data153 === "surface")) || (data153 === "noise"))){
const err381 = {instancePath:instancePath+"/stars/" + i12+"/limit/kind",schemaPath:"#/definitions/haloLimit/properties/kind/enum",keyword:"enum",params:{allowedValues: schema25.properties.kind.enum},message:"must be equal to one of the allowed values",schema:schema25.properties.kind.enum,parentSchema:schema25.properties.kind,data:data153};
if(vErrors === null){
vErrors = [err381];
}
else {
vErrors.push(err381);
}
errors++;
}
}
if(data149.atMost !== undefined){
let data154 = data149.atMost;
if((typeof data154 == "number") && (isFinite(data154))){
if(data154 >= 1 || isNaN(data154)){
const err382 = {instancePath:instancePath+"/stars/" + i12+"/limit/atMost",schemaPath:"#/definitions/haloLimit/properties/atMost/exclusiveMaximum",keyword:"exclusiveMaximum",params:{comparison: "<", limit: 1},message:"must be < 1",schema:1,parentSchema:schema25.properties.atMost,data:data154};
if(vErrors === null){
vErrors = [err382];
}
else {
vErrors.push(err382);
}
errors++;
}
if(data154 <= 0 || isNaN(data154)){
const err383 = {instancePath:instancePath+"/stars/" + i12+"/limit/atMost",schemaPath:"#/definitions/haloLimit/properties/atMost/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema25.properties.atMost,data:data154};
if(vErrors === null){
vErrors = [err383];
}
else {
vErrors.push(err383);
}
errors++;
}
}
else {
const err384 = {instancePath:instancePath+"/stars/" + i12+"/limit/atMost",schemaPath:"#/definitions/haloLimit/properties/atMost/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema25.properties.atMost.type,parentSchema:schema25.properties.atMost,data:data154};
if(vErrors === null){
vErrors = [err384];
}
else {
vErrors.push(err384);
}
errors++;
}
}
if(data149.atLeast !== undefined){
let data155 = data149.atLeast;
if((typeof data155 == "number") && (isFinite(data155))){
if(data155 > 50 || isNaN(data155)){
const err385 = {instancePath:instancePath+"/stars/" + i12+"/limit/atLeast",schemaPath:"#/definitions/haloLimit/properties/atLeast/maximum",keyword:"maximum",params:{comparison: "<=", limit: 50},message:"must be <= 50",schema:50,parentSchema:schema25.properties.atLeast,data:data155};
if(vErrors === null){
vErrors = [err385];
}
else {
vErrors.push(err385);
}
errors++;
}
if(data155 < -50 || isNaN(data155)){
const err386 = {instancePath:instancePath+"/stars/" + i12+"/limit/atLeast",schemaPath:"#/definitions/haloLimit/properties/atLeast/minimum",keyword:"minimum",params:{comparison: ">=", limit: -50},message:"must be >= -50",schema:-50,parentSchema:schema25.properties.atLeast,data:data155};
if(vErrors === null){
vErrors = [err386];
}
else {
vErrors.push(err386);
}
errors++;
}
}
else {
const err387 = {instancePath:instancePath+"/stars/" + i12+"/limit/atLeast",schemaPath:"#/definitions/haloLimit/properties/atLeast/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema25.properties.atLeast.type,parentSchema:schema25.properties.atLeast,data:data155};
if(vErrors === null){
vErrors = [err387];
}
else {
vErrors.push(err387);
}
errors++;
}
}
if(data149.hours !== undefined){
let data156 = data149.hours;
if((typeof data156 == "number") && (isFinite(data156))){
if(data156 <= 0 || isNaN(data156)){
const err388 = {instancePath:instancePath+"/stars/" + i12+"/limit/hours",schemaPath:"#/definitions/haloLimit/properties/hours/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema25.properties.hours,data:data156};
if(vErrors === null){
vErrors = [err388];
}
else {
vErrors.push(err388);
}
errors++;
}
}
else {
const err389 = {instancePath:instancePath+"/stars/" + i12+"/limit/hours",schemaPath:"#/definitions/haloLimit/properties/hours/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema25.properties.hours.type,parentSchema:schema25.properties.hours,data:data156};
if(vErrors === null){
vErrors = [err389];
}
else {
vErrors.push(err389);
}
errors++;
}
}
if(data149.electronsPerCount !== undefined){
let data157 = data149.electronsPerCount;
if((typeof data157 == "number") && (isFinite(data157))){
if(data157 <= 0 || isNaN(data157)){
const err390 = {instancePath:instancePath+"/stars/" + i12+"/limit/electronsPerCount",schemaPath:"#/definitions/haloLimit/properties/electronsPerCount/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema25.properties.electronsPerCount,data:data157};
if(vErrors === null){
vErrors = [err390];
}
else {
vErrors.push(err390);
}
errors++;
}
}
else {
const err391 = {instancePath:instancePath+"/stars/" + i12+"/limit/electronsPerCount",schemaPath:"#/definitions/haloLimit/properties/electronsPerCount/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema25.properties.electronsPerCount.type,parentSchema:schema25.properties.electronsPerCount,data:data157};
if(vErrors === null){
vErrors = [err391];
}
else {
vErrors.push(err391);
}
errors++;
}
}
if(data149.brighterBy !== undefined){
let data158 = data149.brighterBy;
if((typeof data158 == "number") && (isFinite(data158))){
if(data158 > 50 || isNaN(data158)){
const err392 = {instancePath:instancePath+"/stars/" + i12+"/limit/brighterBy",schemaPath:"#/definitions/haloLimit/properties/brighterBy/maximum",keyword:"maximum",params:{comparison: "<=", limit: 50},message:"must be <= 50",schema:50,parentSchema:schema25.properties.brighterBy,data:data158};
if(vErrors === null){
vErrors = [err392];
}
else {
vErrors.push(err392);
}
errors++;
}
if(data158 < -50 || isNaN(data158)){
const err393 = {instancePath:instancePath+"/stars/" + i12+"/limit/brighterBy",schemaPath:"#/definitions/haloLimit/properties/brighterBy/minimum",keyword:"minimum",params:{comparison: ">=", limit: -50},message:"must be >= -50",schema:-50,parentSchema:schema25.properties.brighterBy,data:data158};
if(vErrors === null){
vErrors = [err393];
}
else {
vErrors.push(err393);
}
errors++;
}
}
else {
const err394 = {instancePath:instancePath+"/stars/" + i12+"/limit/brighterBy",schemaPath:"#/definitions/haloLimit/properties/brighterBy/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema25.properties.brighterBy.type,parentSchema:schema25.properties.brighterBy,data:data158};
if(vErrors === null){
vErrors = [err394];
}
else {
vErrors.push(err394);
}
errors++;
}
}
if(data149.sky !== undefined){
let data159 = data149.sky;
if((typeof data159 == "number") && (isFinite(data159))){
if(data159 < 0 || isNaN(data159)){
const err395 = {instancePath:instancePath+"/stars/" + i12+"/limit/sky",schemaPath:"#/definitions/haloLimit/properties/sky/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema25.properties.sky,data:data159};
if(vErrors === null){
vErrors = [err395];
}
else {
vErrors.push(err395);
}
errors++;
}
}
else {
const err396 = {instancePath:instancePath+"/stars/" + i12+"/limit/sky",schemaPath:"#/definitions/haloLimit/properties/sky/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema25.properties.sky.type,parentSchema:schema25.properties.sky,data:data159};
if(vErrors === null){
vErrors = [err396];
}
else {
vErrors.push(err396);
}
errors++;
}
}
if(data149.dark !== undefined){
let data160 = data149.dark;
if((typeof data160 == "number") && (isFinite(data160))){
if(data160 < 0 || isNaN(data160)){
const err397 = {instancePath:instancePath+"/stars/" + i12+"/limit/dark",schemaPath:"#/definitions/haloLimit/properties/dark/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema25.properties.dark,data:data160};
if(vErrors === null){
vErrors = [err397];
}
else {
vErrors.push(err397);
}
errors++;
}
}
else {
const err398 = {instancePath:instancePath+"/stars/" + i12+"/limit/dark",schemaPath:"#/definitions/haloLimit/properties/dark/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema25.properties.dark.type,parentSchema:schema25.properties.dark,data:data160};
if(vErrors === null){
vErrors = [err398];
}
else {
vErrors.push(err398);
}
errors++;
}
}
if(data149.readNoise !== undefined){
let data161 = data149.readNoise;
if((typeof data161 == "number") && (isFinite(data161))){
if(data161 < 0 || isNaN(data161)){
const err399 = {instancePath:instancePath+"/stars/" + i12+"/limit/readNoise",schemaPath:"#/definitions/haloLimit/properties/readNoise/minimum",keyword:"minimum",params:{comparison: ">=", limit: 0},message:"must be >= 0",schema:0,parentSchema:schema25.properties.readNoise,data:data161};
if(vErrors === null){
vErrors = [err399];
}
else {
vErrors.push(err399);
}
errors++;
}
}
else {
const err400 = {instancePath:instancePath+"/stars/" + i12+"/limit/readNoise",schemaPath:"#/definitions/haloLimit/properties/readNoise/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema25.properties.readNoise.type,parentSchema:schema25.properties.readNoise,data:data161};
if(vErrors === null){
vErrors = [err400];
}
else {
vErrors.push(err400);
}
errors++;
}
}
if(data149.frameS !== undefined){
let data162 = data149.frameS;
if((typeof data162 == "number") && (isFinite(data162))){
if(data162 <= 0 || isNaN(data162)){
const err401 = {instancePath:instancePath+"/stars/" + i12+"/limit/frameS",schemaPath:"#/definitions/haloLimit/properties/frameS/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema25.properties.frameS,data:data162};
if(vErrors === null){
vErrors = [err401];
}
else {
vErrors.push(err401);
}
errors++;
}
}
else {
const err402 = {instancePath:instancePath+"/stars/" + i12+"/limit/frameS",schemaPath:"#/definitions/haloLimit/properties/frameS/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema25.properties.frameS.type,parentSchema:schema25.properties.frameS,data:data162};
if(vErrors === null){
vErrors = [err402];
}
else {
vErrors.push(err402);
}
errors++;
}
}
if(data149.pixels !== undefined){
let data163 = data149.pixels;
if((typeof data163 == "number") && (isFinite(data163))){
if(data163 < 1 || isNaN(data163)){
const err403 = {instancePath:instancePath+"/stars/" + i12+"/limit/pixels",schemaPath:"#/definitions/haloLimit/properties/pixels/minimum",keyword:"minimum",params:{comparison: ">=", limit: 1},message:"must be >= 1",schema:1,parentSchema:schema25.properties.pixels,data:data163};
if(vErrors === null){
vErrors = [err403];
}
else {
vErrors.push(err403);
}
errors++;
}
}
else {
const err404 = {instancePath:instancePath+"/stars/" + i12+"/limit/pixels",schemaPath:"#/definitions/haloLimit/properties/pixels/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema25.properties.pixels.type,parentSchema:schema25.properties.pixels,data:data163};
if(vErrors === null){
vErrors = [err404];
}
else {
vErrors.push(err404);
}
errors++;
}
}
if(data149.threshold !== undefined){
let data164 = data149.threshold;
if((typeof data164 == "number") && (isFinite(data164))){
if(data164 <= 0 || isNaN(data164)){
const err405 = {instancePath:instancePath+"/stars/" + i12+"/limit/threshold",schemaPath:"#/definitions/haloLimit/properties/threshold/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema25.properties.threshold,data:data164};
if(vErrors === null){
vErrors = [err405];
}
else {
vErrors.push(err405);
}
errors++;
}
}
else {
const err406 = {instancePath:instancePath+"/stars/" + i12+"/limit/threshold",schemaPath:"#/definitions/haloLimit/properties/threshold/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema25.properties.threshold.type,parentSchema:schema25.properties.threshold,data:data164};
if(vErrors === null){
vErrors = [err406];
}
else {
vErrors.push(err406);
}
errors++;
}
}
}
else {
const err407 = {instancePath:instancePath+"/stars/" + i12+"/limit",schemaPath:"#/definitions/haloLimit/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema25.type,parentSchema:schema25,data:data149};
if(vErrors === null){
vErrors = [err407];
}
else {
vErrors.push(err407);
}
errors++;
}
}
if(data123.fNumberBefore !== undefined){
let data165 = data123.fNumberBefore;
if((typeof data165 == "number") && (isFinite(data165))){
if(data165 <= 0 || isNaN(data165)){
const err408 = {instancePath:instancePath+"/stars/" + i12+"/fNumberBefore",schemaPath:"#/properties/stars/items/properties/fNumberBefore/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.stars.items.properties.fNumberBefore,data:data165};
if(vErrors === null){
vErrors = [err408];
}
else {
vErrors.push(err408);
}
errors++;
}
}
else {
const err409 = {instancePath:instancePath+"/stars/" + i12+"/fNumberBefore",schemaPath:"#/properties/stars/items/properties/fNumberBefore/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.fNumberBefore.type,parentSchema:schema11.properties.stars.items.properties.fNumberBefore,data:data165};
if(vErrors === null){
vErrors = [err409];
}
else {
vErrors.push(err409);
}
errors++;
}
}
if(data123.movedSpacingMm !== undefined){
let data166 = data123.movedSpacingMm;
if((typeof data166 == "number") && (isFinite(data166))){
if(data166 <= 0 || isNaN(data166)){
const err410 = {instancePath:instancePath+"/stars/" + i12+"/movedSpacingMm",schemaPath:"#/properties/stars/items/properties/movedSpacingMm/exclusiveMinimum",keyword:"exclusiveMinimum",params:{comparison: ">", limit: 0},message:"must be > 0",schema:0,parentSchema:schema11.properties.stars.items.properties.movedSpacingMm,data:data166};
if(vErrors === null){
vErrors = [err410];
}
else {
vErrors.push(err410);
}
errors++;
}
}
else {
const err411 = {instancePath:instancePath+"/stars/" + i12+"/movedSpacingMm",schemaPath:"#/properties/stars/items/properties/movedSpacingMm/type",keyword:"type",params:{type: "number"},message:"must be number",schema:schema11.properties.stars.items.properties.movedSpacingMm.type,parentSchema:schema11.properties.stars.items.properties.movedSpacingMm,data:data166};
if(vErrors === null){
vErrors = [err411];
}
else {
vErrors.push(err411);
}
errors++;
}
}
}
else {
const err412 = {instancePath:instancePath+"/stars/" + i12,schemaPath:"#/properties/stars/items/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.properties.stars.items.type,parentSchema:schema11.properties.stars.items,data:data123};
if(vErrors === null){
vErrors = [err412];
}
else {
vErrors.push(err412);
}
errors++;
}
}
}
else {
const err413 = {instancePath:instancePath+"/stars",schemaPath:"#/properties/stars/type",keyword:"type",params:{type: "array"},message:"must be array",schema:schema11.properties.stars.type,parentSchema:schema11.properties.stars,data:data122};
if(vErrors === null){
vErrors = [err413];
}
else {
vErrors.push(err413);
}
errors++;
}
}
}
else {
const err414 = {instancePath,schemaPath:"#/type",keyword:"type",params:{type: "object"},message:"must be object",schema:schema11.type,parentSchema:schema11,data};
if(vErrors === null){
vErrors = [err414];
}
else {
vErrors.push(err414);
}
errors++;
}
validate10.errors = vErrors;
return errors === 0;
}
